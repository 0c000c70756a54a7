package pixels

import (
	"bytes"
	"strings"
)

// others are formats known by their first bytes, so that the error can name them.
var others = []struct {
	at    int
	bytes string
	name  string
	hint  string
}{
	{0, "GIF8", "a GIF", saveReadable},
	{0, "BM", "a BMP", saveReadable},
	{0, "II*\x00", "a TIFF or a camera's raw picture", saveReadable},
	{0, "MM\x00*", "a TIFF or a camera's raw picture", saveReadable},
	{0, "II+\x00", "a BigTIFF", saveReadable},
	{0, "MM\x00+", "a BigTIFF", saveReadable},
	{8, "WEBP", "a WebP", saveReadable},
	{4, "ftypavif", "an AVIF", saveReadable},
	{4, "ftypheic", "a HEIC, as telephones take them", "export it as JPEG"},
	{4, "ftypheix", "a HEIC, as telephones take them", "export it as JPEG"},
	{4, "ftypmif1", "a HEIF, as telephones take them", "export it as JPEG"},
	{4, "jP  ", "a JPEG 2000", saveReadable},
	{0, "\xffO\xffQ", "a JPEG 2000", saveReadable},
	{0, "\xff\x0a", "a JPEG XL", saveReadable},
	{4, "JXL ", "a JPEG XL", saveReadable},
	{0, "8BPS", "a layered picture of an image editor (PSD)", "flatten it and save it as PNG"},
	{0, "8BPB", "a layered picture of an image editor (PSB)", "flatten it and save it as PNG"},
	{0, "gimp xcf", "a layered picture of an image editor (XCF)", "flatten it and export it as PNG"},
	{0, "%PDF", "a PDF", "export the picture in it as PNG, JPEG or SVG"},
	{0, "%!PS", "a PostScript file", "export it as SVG or PNG"},
	{0, "\x8aMNG", "an MNG", saveReadable},
	{0, "\x8bJNG", "a JNG", saveReadable},
	{0, "qoif", "a QOI", saveReadable},
	{0, "v/1\x01", "an OpenEXR", saveReadable},
	{0, "PK\x03\x04", "a ZIP archive", "take the picture out of it"},
}

// otherFormat is the error for a file that is neither PNG nor JPEG, by its first bytes.
func otherFormat(head []byte) error {
	for _, o := range others {
		if len(head) > o.at && bytes.HasPrefix(head[o.at:], []byte(o.bytes)) {
			return &Error{What: "this is " + o.name + ", and only PNG and JPEG pictures are read", Hint: o.hint}
		}
	}
	text := strings.TrimLeft(strings.TrimPrefix(string(head), "\ufeff"), " \t\r\n")
	switch {
	case strings.HasPrefix(text, "<svg"), strings.HasPrefix(text, "<?xml"):
		return &Error{What: "this is a drawing (SVG or other XML), not a picture made of pixels", Hint: "give it the ending .svg"}
	case strings.HasPrefix(strings.ToLower(text), "<!doctype"), strings.HasPrefix(strings.ToLower(text), "<html"):
		return &Error{What: "this is a web page, not a picture", Hint: "save the picture itself from the page"}
	case len(head) >= 2 && head[0] == 0xff && head[1] == 0xd8:
		return jpegError(2, "nothing readable follows the start marker").hint(saveAgain)
	case strings.HasPrefix(pngSignature, string(head)):
		return pngError(int64(len(head)), "the file ends inside its signature").hint(saveAgain)
	case len(head) > 4 && string(head[1:4]) == "PNG":
		return pngError(0, "the first eight bytes are damaged, as happens when a picture is copied as text").hint(saveAgain)
	}
	return &Error{What: "the first bytes are neither those of a PNG nor of a JPEG", Hint: saveReadable}
}

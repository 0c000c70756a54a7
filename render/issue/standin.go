package issue

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
)

// standIn is a picture of a size in pixels as a PNG (ISO/IEC 15948): black with a white edge of one pixel, so that a cut-out of it is
// its box. It carries a word, so that two stand-ins for different pictures differ.
func standIn(w, h int, word string) []byte {
	out := bytes.NewBufferString("\x89PNG\r\n\x1a\n")
	chunk := func(kind string, data []byte) {
		head := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
		body := append([]byte(kind), data...)
		out.Write(head)
		out.Write(body)
		out.Write(binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(body)))
	}
	const grey, oneBit = 0, 1
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, uint32(w)), uint32(h))
	chunk("IHDR", append(head, oneBit, grey, 0, 0, 0))
	chunk("tEXt", []byte("Comment\x00"+word))
	row := make([]byte, 1+(w+7)/8) // its first byte is the filter: none
	white := func(x int) { row[1+x/8] |= 0x80 >> (x % 8) }
	white(0)
	white(w - 1)
	edge := bytes.Repeat([]byte{0xff}, len(row))
	edge[0] = 0
	var data bytes.Buffer
	z := zlib.NewWriter(&data)
	for y := range h {
		if y == 0 || y == h-1 {
			z.Write(edge)
			continue
		}
		z.Write(row)
	}
	z.Close()
	chunk("IDAT", data.Bytes())
	chunk("IEND", nil)
	return out.Bytes()
}

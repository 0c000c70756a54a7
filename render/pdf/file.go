package pdf

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"hash"
	"io"
	"strconv"

	"github.com/klauspost/compress/zlib"
)

// level is the compressor's: the least bytes for which it still keeps up with a page's making.
const level = 6

// packSize is how many objects one object stream holds: readers unpack it whole to reach one of them.
const packSize = 200

// ref is an object's number; its generation is always 0.
type ref int

// file is the objects of a PDF file on their way out: those with streams are written at once, the others gathered into
// compressed object streams. It keeps where each object stands and nothing else. The first error stops it.
type file struct {
	out   *bufio.Writer
	sum   hash.Hash
	at    int64
	err   error
	where []position
	head  []byte // scratch

	pack    ref // the open object stream, 0 where there is none
	packed  int
	index   []byte // its table of numbers and offsets
	objects []byte
	z       *compressor
}

// position is where an object stands: at a place in the file, or as the nth of an object stream.
type position struct {
	at   int64
	nth  int32
	pack int32
}

func newFile(w io.Writer) *file {
	f := &file{out: bufio.NewWriterSize(w, 1<<17), sum: sha256.New(), z: newCompressor(), where: make([]position, 1, 64)}
	f.write([]byte("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"))
	return f
}

// alloc takes n numbers for objects to come and returns the first.
func (f *file) alloc(n int) ref {
	first := ref(len(f.where))
	f.where = append(f.where, make([]position, n)...)
	return first
}

func (f *file) write(b []byte) {
	if f.err != nil {
		return
	}
	f.sum.Write(b)
	_, f.err = f.out.Write(b)
	f.at += int64(len(b))
}

// stream writes an object with a stream that is already deflated; dict is what its dictionary holds beside Filter and Length.
func (f *file) stream(r ref, dict string, deflated []byte) {
	f.raw(r, dict+"/Filter/FlateDecode", deflated)
}

// raw writes an object with a stream as it is; dict is what its dictionary holds beside Length.
func (f *file) raw(r ref, dict string, data []byte) {
	f.where[r] = position{at: f.at}
	h := append(strconv.AppendInt(f.head[:0], int64(r), 10), " 0 obj<<"...)
	h = append(h, dict...)
	h = append(h, "/Length "...)
	h = append(strconv.AppendInt(h, int64(len(data)), 10), ">>stream\n"...)
	f.head = h
	f.write(h)
	f.write(data)
	f.write([]byte("\nendstream endobj\n"))
}

// object gathers an object without a stream.
func (f *file) object(r ref, body []byte) {
	if f.pack == 0 {
		f.pack, f.packed = f.alloc(1), 0
		f.index, f.objects = f.index[:0], f.objects[:0]
	}
	f.where[r] = position{pack: int32(f.pack), nth: int32(f.packed)}
	f.index = appendInt(appendInt(f.index, int64(r)), int64(len(f.objects)))
	f.objects = append(append(f.objects, body...), '\n')
	if f.packed++; f.packed == packSize {
		f.flushPack()
	}
}

func (f *file) flushPack() {
	if f.pack == 0 {
		return
	}
	dict := append([]byte("/Type/ObjStm/N "), strconv.Itoa(f.packed)...)
	dict = append(append(dict, "/First "...), strconv.Itoa(len(f.index))...)
	f.stream(f.pack, string(dict), f.z.deflate(f.index, f.objects))
	f.pack = 0
}

// close writes the cross-reference stream, whose dictionary also holds trailer.
func (f *file) close(trailer []byte) error {
	f.flushPack()
	r := f.alloc(1)
	begin := f.at
	f.where[r] = position{at: begin}
	const columns = 1 + 5 + 2
	rows := make([]byte, 0, (columns+1)*len(f.where))
	var above, row [columns]byte
	for i, p := range f.where {
		row = [columns]byte{}
		var wide [8]byte
		switch {
		case i == 0: // the head of the free list
			row[6], row[7] = 0xff, 0xff
		case p.pack != 0:
			row[0] = 2
			binary.BigEndian.PutUint64(wide[:], uint64(p.pack))
			copy(row[1:6], wide[3:])
			binary.BigEndian.PutUint16(row[6:], uint16(p.nth))
		default:
			row[0] = 1
			binary.BigEndian.PutUint64(wide[:], uint64(p.at))
			copy(row[1:6], wide[3:])
		}
		rows = append(rows, 2) // PNG's predictor "up": differences from the row above
		for k := range row {
			rows = append(rows, row[k]-above[k])
		}
		above = row
	}
	id := f.sum.Sum(nil)[:16]
	var dict bytes.Buffer
	dict.WriteString("/Type/XRef/W[1 5 2]/Size ")
	dict.WriteString(strconv.Itoa(len(f.where)))
	dict.WriteString("/DecodeParms<</Predictor 12/Columns 8>>")
	dict.Write(trailer)
	dict.WriteString("/ID[")
	for range 2 {
		dict.Write(appendHex(nil, id))
	}
	dict.WriteByte(']')
	f.stream(r, dict.String(), f.z.deflate(rows))
	f.write([]byte("startxref\n" + strconv.FormatInt(begin, 10) + "\n%%EOF\n"))
	if f.err == nil {
		f.err = f.out.Flush()
	}
	return f.err
}

// compressor deflates many streams with one state.
type compressor struct {
	z   *zlib.Writer
	out bytes.Buffer
}

func newCompressor() *compressor {
	c := &compressor{}
	c.z, _ = zlib.NewWriterLevel(&c.out, level) // fails only for a level that is none
	return c
}

// deflate returns the parts, joined and deflated, good until the next call.
func (c *compressor) deflate(parts ...[]byte) []byte {
	c.out.Reset()
	c.appendTo(&c.out, parts...)
	return c.out.Bytes()
}

// appendTo appends the parts, joined and deflated, to a buffer, which takes all that it is given.
func (c *compressor) appendTo(out *bytes.Buffer, parts ...[]byte) {
	c.z.Reset(out)
	for _, p := range parts {
		c.z.Write(p)
	}
	c.z.Close()
}

package pixels

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/jpeg"
	"io"
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// large is a JPEG of 100.8 megapixels, 12 000 × 8 400 at 4:2:0, about as full of detail as a photograph: soft
// shapes, edges and grain.
var large = sync.OnceValue(func() []byte {
	m := image.NewYCbCr(image.Rect(0, 0, 12000, 8400), image.YCbCrSubsampleRatio420)
	rnd := rand.New(rand.NewPCG(3, 4))
	soft := make([]float64, 1<<12)
	for i := range soft {
		soft[i] = 60 * math.Sin(float64(i)*2*math.Pi/float64(len(soft)))
	}
	for y := range 8400 {
		row := m.Y[y*m.YStride:][:12000]
		grain := rnd.Uint64()
		for x := range row {
			if x&7 == 0 {
				grain = rnd.Uint64()
			}
			v := 128 + soft[(3*x+y)&4095] + float64(grain&15)
			if (x/97+y/61)%5 == 0 {
				v -= 50
			}
			row[x] = byte(v)
			grain >>= 8
		}
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = byte(128+i/700%40), byte(140-i/1100%30)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 88}); err != nil {
		panic(err)
	}
	return b.Bytes()
})

// tiles covers 9 × 5 m in the live area of A3 (400 × 277 mm), each with 10 mm of lap.
func tiles(p *Picture) []image.Rectangle {
	mm := float64(p.Width) / 9000
	var out []image.Rectangle
	for y := 0.0; y*mm < float64(p.Height); y += 267 {
		for x := 0.0; x*mm < float64(p.Width); x += 390 {
			r := image.Rect(int(x*mm), int(y*mm), int((x+400)*mm), int((y+277)*mm))
			out = append(out, r.Intersect(p.Bounds()))
		}
	}
	return out
}

// peak runs work and returns the greatest heap seen meanwhile above what there was.
func peak(work func()) uint64 {
	runtime.GC()
	var before, now runtime.MemStats
	runtime.ReadMemStats(&before)
	var most atomic.Uint64
	stop, done := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(done)
		for {
			runtime.ReadMemStats(&now)
			most.Store(max(most.Load(), now.HeapInuse))
			select {
			case <-stop:
				return
			case <-time.After(5 * time.Millisecond):
			}
		}
	}()
	work()
	close(stop)
	<-done
	return most.Load() - min(most.Load(), before.HeapInuse)
}

func BenchmarkCutHundredMegapixels(b *testing.B) {
	file := large()
	b.SetBytes(int64(len(file)))
	var most uint64
	for b.Loop() {
		most = max(most, peak(func() {
			p := openBytes(b, file)
			out := 0
			parts := tiles(p)
			require.NoError(b, p.Cut(parts, func(_ Block, f []byte) error { out += len(f); return nil }))
			b.ReportMetric(float64(out)/float64(len(file)), "out/in")
			b.ReportMetric(float64(len(parts)), "parts")
		}))
	}
	b.ReportMetric(float64(most)/(1<<20), "peak-MB")
	b.ReportMetric(float64(len(file))/(1<<20), "file-MB")
}

func BenchmarkStripsHundredMegapixels(b *testing.B) {
	file := large()
	b.SetBytes(int64(len(file)))
	var most uint64
	for b.Loop() {
		most = max(most, peak(func() {
			require.NoError(b, openBytes(b, file).Strips(64, func(image.Image) error { return nil }))
		}))
	}
	b.ReportMetric(float64(most)/(1<<20), "peak-MB")
}

// The yardstick: the standard library decodes the picture whole.
func BenchmarkDecodeWholeHundredMegapixels(b *testing.B) {
	file := large()
	b.SetBytes(int64(len(file)))
	for b.Loop() {
		_, err := jpeg.Decode(bytes.NewReader(file))
		require.NoError(b, err)
	}
}

func BenchmarkStripsPNGHundredMegapixels(b *testing.B) {
	const w, h = 12000, 8400
	var packed bytes.Buffer
	z, _ := zlib.NewWriterLevel(&packed, zlib.BestSpeed)
	row := make([]byte, 1+3*w)
	for y := range h {
		row[0] = byte(y % 5)
		for x := range 3 * w {
			row[1+x] = byte((x*y/512)%7 + x/4000)
		}
		_, _ = z.Write(row)
	}
	_ = z.Close()
	file := []byte(pngSignature)
	head := binary.BigEndian.AppendUint32(nil, w)
	head = append(binary.BigEndian.AppendUint32(head, h), 8, 2, 0, 0, 0)
	for _, c := range []struct {
		name string
		b    []byte
	}{{"IHDR", head}, {"IDAT", packed.Bytes()}, {"IEND", nil}} {
		file = appendChunk(file, c.name, c.b)
	}
	b.SetBytes(int64(len(file)))
	var most uint64
	for b.Loop() {
		most = max(most, peak(func() {
			p := openBytes(b, file)
			require.NoError(b, p.Rows(tiles(p), func(r Row) error { _, err := io.Discard.Write(r.Colour); return err }))
		}))
	}
	b.ReportMetric(float64(most)/(1<<20), "peak-MB")
}

func appendChunk(b []byte, name string, contents []byte) []byte {
	b = binary.BigEndian.AppendUint32(b, uint32(len(contents)))
	at := len(b)
	b = append(append(b, name...), contents...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[at:]))
}

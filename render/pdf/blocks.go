package pdf

import (
	"bytes"
	"sync"

	"markout/layout/drawing"
	"markout/tiling"
)

// blockPages is how many pages a worker makes at a time.
const blockPages = 16

// block is a run of consecutive pages, made and deflated by one worker.
type block struct {
	first   int
	pages   []madePage
	streams bytes.Buffer // the pages' deflated contents, one after the other
	done    chan struct{}
}

// madePage is what the file must know of a page beside its content.
type madePage struct {
	w, h   float64
	label  string
	forms  []*tiling.Form
	shows  []*tiling.Show
	layers [drawing.Layers]bool
	end    int // of its content in streams
}

// makeBlocks makes all pages on opt.Workers goroutines and hands each to add, in order, with its deflated content, from
// this goroutine; at the end it hands over what each worker's pages used of the fonts. A few blocks are under way at a
// time; the first error of add ends the work.
func makeBlocks(doc *tiling.Document, hung map[*tiling.Show]ref, opt Options, add func(i int, p *madePage, deflated []byte) error, used func(usage)) error {
	blocks := (doc.Pages + blockPages - 1) / blockPages
	workers := min(opt.Workers, blocks)
	under := 2*workers + 1
	free := make(chan *block, under)
	for range under {
		free <- &block{done: make(chan struct{}, 1)}
	}
	order := make(chan *block, under)
	jobs := make(chan *block, under)
	stop := make(chan struct{})
	go func() {
		defer close(jobs)
		for i := range blocks {
			select {
			case b := <-free:
				b.first = i * blockPages
				jobs <- b
				order <- b
			case <-stop:
				return
			}
		}
	}()
	var wg sync.WaitGroup
	usages := make([]usage, workers)
	for i := range workers {
		usages[i] = usage{}
		wg.Go(func() {
			maker := newMaker(usages[i], hung)
			for b := range jobs {
				select {
				case <-stop:
					return
				default:
				}
				maker.make(doc, b)
				b.done <- struct{}{}
			}
		})
	}
	var err error
	for range blocks {
		b := <-order
		<-b.done
		if err = b.addTo(add); err != nil {
			break
		}
		if opt.Progress != nil {
			opt.Progress(b.first+len(b.pages), doc.Pages)
		}
		free <- b
	}
	close(stop)
	wg.Wait()
	for _, u := range usages {
		used(u)
	}
	return err
}

func (b *block) addTo(add func(i int, p *madePage, deflated []byte) error) error {
	begin := 0
	for i := range b.pages {
		p := &b.pages[i]
		if err := add(b.first+i, p, b.streams.Bytes()[begin:p.end]); err != nil {
			return err
		}
		begin = p.end
	}
	return nil
}

// maker is what one worker keeps: a page to fill, a stream to write it into, and a compressor.
type maker struct {
	page    tiling.Page
	content content
	z       *compressor
}

func newMaker(used usage, hung map[*tiling.Show]ref) *maker {
	return &maker{content: content{codes: codes(), used: used, hung: hung}, z: newCompressor()}
}

func (m *maker) make(doc *tiling.Document, b *block) {
	n := min(blockPages, doc.Pages-b.first)
	for len(b.pages) < n {
		b.pages = append(b.pages, madePage{})
	}
	b.pages = b.pages[:n]
	b.streams.Reset()
	for i := range b.pages {
		m.page.Reset()
		doc.Make(b.first+i, &m.page)
		m.content.begin(false)
		m.content.page(&m.page)
		m.z.appendTo(&b.streams, m.content.buf)
		p := &b.pages[i]
		p.w, p.h, p.label, p.layers, p.end = m.page.W, m.page.H, m.page.Label, m.content.layers, b.streams.Len()
		p.forms = append(p.forms[:0], m.content.forms...)
		p.shows = append(p.shows[:0], m.content.shows...)
	}
}

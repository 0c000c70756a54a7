package cli

import (
	"sync"
	"time"

	"github.com/schollz/progressbar/v3"
)

// progress returns a function to be told how far a long job is, and one that ends it. A bar is drawn only at a
// terminal and only once the job has taken a second.
func (a *app) progress(what string) (tell func(done, total int), end func()) {
	if !a.ErrTerminal {
		return nil, func() {}
	}
	var (
		mu    sync.Mutex
		begun = time.Now()
		bar   *progressbar.ProgressBar
	)
	tell = func(done, total int) {
		mu.Lock()
		defer mu.Unlock()
		if bar == nil {
			if time.Since(begun) < time.Second {
				return
			}
			bar = progressbar.NewOptions(total,
				progressbar.OptionSetWriter(a.Err),
				progressbar.OptionSetDescription(what),
				progressbar.OptionShowCount(),
				progressbar.OptionThrottle(100*time.Millisecond),
				progressbar.OptionClearOnFinish())
		}
		_ = bar.Set(done)
	}
	return tell, func() {
		mu.Lock()
		defer mu.Unlock()
		if bar != nil {
			_ = bar.Finish()
		}
	}
}

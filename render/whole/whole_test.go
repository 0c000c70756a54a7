package whole

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestFile(t *testing.T) {
	old := []byte("what stood there")
	for _, c := range []struct {
		name  string
		write func(cancel func()) func(io.Writer) error
		fails string
	}{
		{"finished", func(func()) func(io.Writer) error {
			return func(w io.Writer) error { _, err := w.Write([]byte("new")); return err }
		}, ""},
		{"failed half way", func(func()) func(io.Writer) error {
			return func(w io.Writer) error {
				_, _ = w.Write(make([]byte, 1<<20))
				return errors.New("no ink")
			}
		}, "no ink; what stood there before is untouched"},
		{"interrupted half way", func(cancel func()) func(io.Writer) error {
			return func(w io.Writer) error {
				_, _ = w.Write(make([]byte, 1<<20))
				cancel()
				_, err := w.Write(make([]byte, 1<<20))
				return err
			}
		}, "context canceled"},
		{"interrupted at the end", func(cancel func()) func(io.Writer) error {
			return func(w io.Writer) error { cancel(); return nil }
		}, "context canceled"},
	} {
		t.Run(c.name, func(t *testing.T) {
			name := filepath.Join(t.TempDir(), "out.pdf")
			require.NoError(t, os.WriteFile(name, old, 0o644))
			ctx, cancel := context.WithCancel(context.Background())
			defer cancel()
			err := File(ctx, name, c.write(cancel))
			got, readErr := os.ReadFile(name)
			require.NoError(t, readErr)
			if c.fails == "" {
				require.NoError(t, err)
				require.Equal(t, "new", string(got))
			} else {
				require.ErrorContains(t, err, c.fails)
				require.Equal(t, old, got)
			}
			list, err := os.ReadDir(filepath.Dir(name))
			require.NoError(t, err)
			require.Len(t, list, 1, "nothing is left beside the file")
		})
	}
}

// A run that was killed leaves its part beside the file; the next one clears it.
func TestFileClearsWhatAKilledRunLeft(t *testing.T) {
	name := filepath.Join(t.TempDir(), "out.pdf")
	part := filepath.Join(filepath.Dir(name), ".out.pdf.markout-part")
	require.NoError(t, os.WriteFile(part, []byte("half"), 0o600))
	require.NoError(t, File(context.Background(), name, func(w io.Writer) error {
		_, err := w.Write([]byte("whole"))
		return err
	}))
	require.NoFileExists(t, part)
	got, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, "whole", string(got))
}

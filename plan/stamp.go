package plan

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// Stamp is what a plan file held when it was last read or written: with it a
// save can tell whether another program has changed the file since. The zero
// Stamp is a file that was not there.
type Stamp struct {
	There bool
	Sum   [sha256.Size]byte
}

func stampOf(data []byte) Stamp { return Stamp{true, sha256.Sum256(data)} }

// Changed is a file that is not as it was when it was last read or written.
type Changed struct {
	Path string
	Gone bool // it is not there any more
}

// Error implements error.
func (c *Changed) Error() string {
	if c.Gone {
		return fmt.Sprintf("%s has been taken away by another program since it was opened here", c.Path)
	}
	return fmt.Sprintf("%s has been changed by another program since it was opened here", c.Path)
}

// LoadStamped is Load, with what the file held.
func LoadStamped(path string) (*Plan, Stamp, error) {
	data, err := readSource(path)
	if err != nil {
		return nil, Stamp{}, err
	}
	p, err := Parse(data, path)
	return p, stampOf(data), err
}

// SaveOver is Save, but only over a file that is still as it was; for one that
// is not, the error is *Changed and nothing is written. It gives what the file
// holds now.
func (p *Plan) SaveOver(path string, was Stamp) (Stamp, error) {
	return p.save(path, func(path string) error {
		is, err := StampOf(path)
		switch {
		case err != nil:
			return err
		case was.There && !is.There:
			return &Changed{Path: path, Gone: true}
		case is != was:
			return &Changed{Path: path}
		}
		return nil
	})
}

// ReadFrom is what the file held that the plan was read from.
func (p *Plan) ReadFrom() Stamp { return p.stamp }

// StampOf is what a file holds at present, be it larger than a plan may be.
func StampOf(path string) (Stamp, error) {
	f, err := os.Open(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return Stamp{}, nil
	case err != nil:
		return Stamp{}, cannotOpen(path, err)
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return Stamp{}, cannotOpen(path, err)
	}
	return Stamp{true, [sha256.Size]byte(h.Sum(nil))}, nil
}

// Save writes the plan wholly or not at all, and keeps the file that was there
// as path~. Hand-written comments and the order of keys stay.
func (p *Plan) Save(path string) error {
	_, err := p.save(path, func(string) error { return nil })
	return err
}

// save writes the plan when ready has nothing against it.
func (p *Plan) save(path string, ready func(path string) error) (Stamp, error) {
	if p.Newer != nil {
		return Stamp{}, p.Newer
	}
	data, err := p.Marshal()
	if err != nil {
		return Stamp{}, err
	}
	if len(data) > maxFileBytes {
		return Stamp{}, fmt.Errorf("the plan is %d kB long and would not open again; accepted is a plan of at most %d kB: fewer pieces, or shorter notes", len(data)>>10, maxFileBytes>>10)
	}
	if err := ready(path); err != nil {
		return Stamp{}, err
	}
	if err := p.keepBefore(path, data); err != nil {
		return Stamp{}, err
	}
	if err := writeFile(path, func(w io.Writer) error { _, err := w.Write(data); return err }, ready); err != nil {
		return Stamp{}, err
	}
	return stampOf(data), nil
}

// keepBefore keeps what is in the file, under path~, and the file as an older
// program wrote it under a name that no later save writes over.
func (p *Plan) keepBefore(path string, data []byte) error {
	old, err := os.ReadFile(path)
	if err != nil || bytes.Equal(old, data) {
		return nil // nothing to keep; writing says what is wrong, if anything
	}
	if p.original != nil {
		if err := p.original.keep(path); err != nil {
			return err
		}
	}
	if err := WriteFile(path+"~", func(w io.Writer) error { _, err := w.Write(old); return err }); err != nil {
		return fmt.Errorf("keeping the previous version: %w", err)
	}
	return nil
}

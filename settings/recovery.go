package settings

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"ellwand/plan"
)

// Recovery is one window's recovery file: the plan as it stands, while it
// differs from what was saved. It outlives the program only when that ends
// without having saved or given up the work.
type Recovery struct {
	file string
	lock *os.File // held while this process lives: so others leave the file alone

	mu      sync.Mutex
	asked   int // how often Keep was asked
	dropped int // the Keep up to which the work has been saved or given up
}

func (f Folders) recoveryFolder() string { return filepath.Join(f.State, "recovery") }

const (
	planEnding = ".plan.yaml"
	lockEnding = ".lock"
)

// NewRecovery takes a recovery file of its own; nothing is in it yet.
func (f Folders) NewRecovery() (*Recovery, error) {
	if err := made(f.recoveryFolder()); err != nil {
		return nil, err
	}
	for range 100 {
		temp, err := os.CreateTemp(f.recoveryFolder(), "work-*"+lockEnding)
		if err != nil {
			return nil, fmt.Errorf("no recovery file can be made: %w", err)
		}
		temp.Close()
		if lock, ok := lockFile(temp.Name()); ok {
			return &Recovery{file: strings.TrimSuffix(temp.Name(), lockEnding) + planEnding, lock: lock}, nil
		}
	}
	return nil, fmt.Errorf("no recovery file in %s can be locked", f.recoveryFolder())
}

// origin is the first line of a recovery file: where the plan came from.
type origin struct {
	Path  string `json:"path"`  // "" for a plan without a file yet
	There bool   `json:"there"` // whether there was such a file
	Sum   string `json:"sum"`   // what it held, SHA-256
}

const originMark = "# ellwand recovery file of "

// Ask says that a plan is about to be kept, and gives the number to keep it
// under. What is kept in the background is thus told from what came before it
// was dropped.
func (r *Recovery) Ask() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.asked++
	return r.asked
}

// Keep writes the plan to the recovery file, wholly or not at all: path and was
// are the file that it is to be saved to, and what that held.
func (r *Recovery) Keep(number int, p *plan.Plan, path string, was plan.Stamp) error {
	data, err := p.Marshal()
	if err != nil {
		return err
	}
	if path != "" {
		if path, err = filepath.Abs(path); err != nil {
			return fmt.Errorf("keeping a recovery file: %w", err)
		}
	}
	from, err := json.Marshal(origin{path, was.There, hex.EncodeToString(was.Sum[:])})
	if err != nil {
		return fmt.Errorf("keeping a recovery file: %w", err)
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	if number <= r.dropped {
		return nil
	}
	err = plan.WriteFile(r.file, func(w io.Writer) error {
		_, err := fmt.Fprintf(w, "%s%s\n%s", originMark, from, data)
		return err
	})
	if err != nil {
		return fmt.Errorf("keeping a recovery file: %w", err)
	}
	return nil
}

// Drop takes the recovery file away: the work is saved, or given up.
func (r *Recovery) Drop() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.dropped = r.asked
	if err := os.Remove(r.file); err != nil && !errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("a recovery file cannot be taken away: %w", err)
	}
	return nil
}

// Close lets the file go. One that still holds a plan is offered at the next start.
func (r *Recovery) Close() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	if _, err := os.Stat(r.file); errors.Is(err, os.ErrNotExist) {
		os.Remove(r.lock.Name()) // else the next start does
	}
	return r.lock.Close()
}

// Leftover is a recovery file whose program ended without saving.
type Leftover struct {
	Path string     // where the plan was kept, "" for a plan without a file
	Was  plan.Stamp // what that file held when it was opened or last saved
	At   time.Time  // when the work was last kept
	Plan *plan.Plan

	file string
	lock *os.File
}

// Leftovers are the recovery files of programs that live no more, each held by
// the caller until it is let go. One that cannot be read is left where it is,
// and the error names it.
func (f Folders) Leftovers() ([]*Leftover, error) {
	locks, err := filepath.Glob(filepath.Join(f.recoveryFolder(), "work-*"+lockEnding))
	if err != nil {
		return nil, fmt.Errorf("recovery files: %w", err)
	}
	var out []*Leftover
	var wrong []error
	for _, name := range locks {
		lock, ok := lockFile(name)
		if !ok {
			continue // its program lives
		}
		l := &Leftover{file: strings.TrimSuffix(name, lockEnding) + planEnding, lock: lock}
		info, err := os.Stat(l.file)
		if errors.Is(err, os.ErrNotExist) {
			os.Remove(name)
			lock.Close()
			continue
		}
		if err == nil {
			l.At = info.ModTime()
			err = l.read()
		}
		if err != nil {
			wrong = append(wrong, fmt.Errorf("the recovery file %s cannot be read: %w", l.file, err))
			lock.Close()
			continue
		}
		out = append(out, l)
	}
	return out, errors.Join(wrong...)
}

// mostRecoveryBytes is a plan of the largest kind and its first line.
const mostRecoveryBytes = 2 << 20

func (l *Leftover) read() error {
	f, err := os.Open(l.file)
	if err != nil {
		return err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostRecoveryBytes))
	if err != nil {
		return err
	}
	first, rest, _ := bytes.Cut(data, []byte("\n"))
	text, ok := bytes.CutPrefix(first, []byte(originMark))
	var from origin
	if !ok || json.Unmarshal(text, &from) != nil {
		return errors.New("its first line does not say what it is")
	}
	if sum, err := hex.DecodeString(from.Sum); err == nil && len(sum) == len(l.Was.Sum) {
		l.Was = plan.Stamp{There: from.There, Sum: [32]byte(sum)}
	}
	l.Path = from.Path
	l.Plan, err = plan.Parse(rest, l.file)
	return err
}

// Drop takes the recovery file away: its work is saved elsewhere, or given up.
func (l *Leftover) Drop() error {
	err := os.Remove(l.file)
	os.Remove(l.lock.Name()) // else the next start does
	l.lock.Close()
	if err != nil {
		return fmt.Errorf("a recovery file cannot be taken away: %w", err)
	}
	return nil
}

// LetGo leaves the recovery file for another time.
func (l *Leftover) LetGo() { l.lock.Close() }

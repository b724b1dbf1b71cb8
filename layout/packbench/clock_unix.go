//go:build unix

package main

import (
	"syscall"
	"time"
)

// processorTime is a clock that goes on by what this process has had of the
// processor, shared among the threads of its searches: on a machine that others
// use too it tells what the search would take alone.
func processorTime(threads int) func() time.Time {
	start := time.Now()
	return func() time.Time {
		var u syscall.Rusage
		if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
			return time.Now()
		}
		return start.Add(time.Duration(u.Utime.Nano()+u.Stime.Nano()) / time.Duration(threads))
	}
}

//go:build !unix

package main

import "time"

// processorTime is the system's clock where the processor's is not to be had.
func processorTime(int) func() time.Time { return time.Now }

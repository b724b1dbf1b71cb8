package ui

import (
	"fmt"
	"io"
	"os"
	"runtime"
	"time"
)

// memoryUse is what the program holds at a moment.
type memoryUse struct {
	After      time.Duration // since the meter began
	LiveMB     float64       // of the heap, once all that nothing points to is swept
	ResidentMB float64       // of the whole process, the display's library with it; 0 where the system does not say
	Goroutines int
}

func (m memoryUse) line() string {
	return fmt.Sprintf("memory after %d s: live %.1f MB, resident %.1f MB, goroutines %d\n",
		int(m.After.Seconds()), m.LiveMB, m.ResidentMB, m.Goroutines)
}

// meterMemory tells every so often what the program holds, for those who work on
// it. It never returns.
func meterMemory(every time.Duration, to io.Writer, now func() time.Time) {
	began := now()
	for {
		time.Sleep(every)
		io.WriteString(to, memoryNow(now().Sub(began)).line()) //nolint:errcheck // there is nobody to tell
	}
}

func memoryNow(after time.Duration) memoryUse {
	runtime.GC()
	var s runtime.MemStats
	runtime.ReadMemStats(&s)
	return memoryUse{after, float64(s.HeapAlloc) / (1 << 20), residentMB(), runtime.NumGoroutine()}
}

// residentMB is the process's memory as Linux counts it; elsewhere 0.
func residentMB() float64 {
	data, err := os.ReadFile("/proc/self/statm")
	if err != nil {
		return 0
	}
	var size, resident int
	if _, err := fmt.Sscan(string(data), &size, &resident); err != nil {
		return 0
	}
	return float64(resident) * float64(os.Getpagesize()) / (1 << 20)
}

package drawing

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image/png"
	"io"
	"math"
)

// PNG writes the sheet as a PNG that states its resolution. Same sheet and
// options, same bytes.
func PNG(w io.Writer, s Sheet, o Options) error {
	img, err := Draw(s, o)
	if err != nil {
		return err
	}
	o, err = o.settled()
	if err != nil {
		return err
	}
	var buf bytes.Buffer
	if err := png.Encode(&buf, img); err != nil {
		return err
	}
	data := buf.Bytes()
	const headerEnd = 8 + 25 // signature and IHDR: pHYs must come before the picture's data
	for _, part := range [][]byte{data[:headerEnd], resolutionChunk(o.DPI), data[headerEnd:]} {
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return nil
}

// resolutionChunk is PNG's pHYs: pixels per metre both ways (PNG, third
// edition, W3C, 11.3.4.3).
func resolutionChunk(dpi float64) []byte {
	perMetre := uint32(math.Round(dpi / 0.0254))
	c := make([]byte, 21)
	binary.BigEndian.PutUint32(c, 9)
	copy(c[4:], "pHYs")
	binary.BigEndian.PutUint32(c[8:], perMetre)
	binary.BigEndian.PutUint32(c[12:], perMetre)
	c[16] = 1
	binary.BigEndian.PutUint32(c[17:], crc32.ChecksumIEEE(c[4:17]))
	return c
}

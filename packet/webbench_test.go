package packet

import (
	"bytes"
	"testing"
	"time"

	"bowerwright/drawing/pdf"
)

// BenchmarkPacket20 makes the packet of the wall of some twenty frames that the
// examples hold, all papers and pictures, as PDF and as a page for screens.
func BenchmarkPacket20(b *testing.B) {
	for _, r := range planned(b) {
		if r.Overall.FrameCount < 19 {
			continue
		}
		b.Run(r.Job.Name, func(b *testing.B) {
			for b.Loop() {
				var doc, page bytes.Buffer
				if err := pdf.Write(&doc, Build(r, time.Time{})); err != nil {
					b.Fatal(err)
				}
				if err := HTML(&page, r, time.Time{}); err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(page.Len())/1e6, "MB-html")
			}
		})
	}
}

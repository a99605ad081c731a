package heard

import (
	"testing"
	"time"

	"wirewake/calc/sentence"
)

// What a thousand sentences cost, parsed, judged and noted, as the part of a core that they take where so many come in a
// second; beside only parsing them.
func BenchmarkAThousandSentences(b *testing.B) {
	lines := []string{
		with("SDDPT,10.0,0.5"), with("VWVHW,,T,,M,5.0,N,,K"), with("YXMTW,16.5,C"), with("HCHDT,045.0,T"),
		with("GPRMC,,A,4112.0000,N,07130.0000,W,3.4,045.0,,,"),
	}
	b.Run("heard", func(b *testing.B) {
		now := time.Unix(1_900_000_000, 0)
		p := &Picture{Now: func() time.Time { return now }}
		for b.Loop() {
			for i := range 1000 {
				now = now.Add(time.Millisecond)
				p.Hear(mast, lines[i%len(lines)])
			}
		}
		b.ReportMetric(100*b.Elapsed().Seconds()/float64(b.N), "%-of-a-core")
	})
	b.Run("parsed", func(b *testing.B) {
		for b.Loop() {
			for i := range 1000 {
				sentence.Parse(lines[i%len(lines)])
			}
		}
		b.ReportMetric(100*b.Elapsed().Seconds()/float64(b.N), "%-of-a-core")
	})
}

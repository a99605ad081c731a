package towline

import "testing"

func TestSettleLook(t *testing.T) {
	rod := testRod(200, 5, 8)
	sea := testSea(3.25)
	sea.Bottom = 0
	for name, q := range map[string]Settle{
		"same": {}, "faster": {Speed: &SpeedChange{2, 4}}, "stop": {Speed: &SpeedChange{0, 4}},
		"out": {Line: &LineChange{75, 0.8}}, "in": {Line: &LineChange{45, 0.8}}, "turn": {Course: &CourseChange{1.5708, .03}},
		"sharp": {Course: &CourseChange{-1.5708, .1}}, "round": {Course: &CourseChange{12, .03}}, "all out": {Line: &LineChange{200, 3}}, "reel in": {Line: &LineChange{3, 3}},
	} {
		q.Sea, q.Rod, q.Lasts, q.Every, q.Within = sea, rod, 120, 0.5, 0.15
		a, err := SettleRod(q)
		if err != nil {
			t.Error(name, err)
			continue
		}
		line := []float64{}
		for k := 0; k < len(a.Depth); k += 20 {
			line = append(line, float64(int(a.Depth[k]*1000))/1000)
		}
		t.Logf("%s: comes to %.4f last %.4f settled %+v deepest %+v shallowest %+v\n%v", name, a.ComesTo, a.Depth[len(a.Depth)-1], a.Settled, a.Deepest, a.Shallowest, line)
	}
}

func BenchmarkSettle(b *testing.B) {
	q := Settle{Sea: testSea(3.25), Rod: testRod(200, 5, 8), Lasts: 60, Every: 0.25, Within: 0.1, Course: &CourseChange{1.57, .03}}
	for b.Loop() {
		if _, err := SettleRod(q); err != nil {
			b.Fatal(err)
		}
	}
}

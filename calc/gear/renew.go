package gear

import (
	"math"

	"wirewake/calc/towline"
)

// Renew gives a rig the catalogue's drag in the place of its earlier one, where lines and lure are still as the catalogue
// had them. Notes of earlier days carry their rigs with them.
func (c *Catalogue) Renew(rig *towline.Rig) {
	for _, l := range []*towline.Line{&rig.Wire, &rig.Backing, &rig.Leader} {
		c.renewLine(l)
	}
	if rig.Dropper != nil {
		dropper := *rig.Dropper
		c.renewLine(&dropper.Line)
		rig.Dropper = &dropper
	}
	for i := range c.Spoons {
		s, l := &c.Spoons[i], &rig.Lure
		if same(l.Mass, s.Mass) && same(l.Density, s.Density) && same(l.LiftArea, s.LiftArea) && same(l.DragArea, s.Earlier.Drag) {
			l.DragArea = s.DragArea
			return
		}
	}
}

func (c *Catalogue) renewLine(l *towline.Line) {
	for _, items := range [][]LineItem{c.Wires, c.Nylons} {
		for i := range items {
			if it := &items[i]; same(l.Diameter, it.Diameter) && same(l.Density, it.Density) && same(l.Strum, it.Earlier.Drag) {
				l.Strum = it.Strum
				return
			}
		}
	}
}

// same is equal but for what a number loses on its way through text.
func same(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Abs(b) }

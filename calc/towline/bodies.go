package towline

import (
	"math"

	"wirewake/calc/towline/line"
)

// LeadDensity of drails and sinkers, kg/m³ (handbook value, from memory).
const LeadDensity = 11340

// Drag coefficients on the frontal area, both from memory: a drail as an ellipsoid four times as long as thick
// lying in the stream (White, Fluid Mechanics, gives 0.25 laminar; a rough, wobbling one has a little more), a
// sinker as a sphere (Clift and Gauvin's curve at Re 10⁴ to 6·10⁴ gives 0.42 to 0.49).
const (
	drailDrag  = 0.30
	sinkerDrag = 0.47
)

// Water taken along when a body is accelerated across its way, as a share of the water it displaces (from memory): a
// sphere one half, a 4:1 ellipsoid 0.86 (Lamb, Hydrodynamics, §§92, 114); a lure as a cylinder across its axis, 1.
const (
	drailAdded  = 0.86
	sinkerAdded = 0.5
	lureAdded   = 1
)

// body is a drail: an ellipsoid of volume V = (4π/6)·d³.
func (d *Drail) body(density float64) line.Body {
	volume := d.Mass / LeadDensity
	thick := math.Cbrt(6 * volume / (4 * math.Pi))
	return line.Body{
		Weight: sunk(d.Mass, LeadDensity, density), DragArea: drailDrag * math.Pi / 4 * thick * thick,
		Mass: d.Mass + drailAdded*density*volume,
	}
}

// sinkerBody is a sphere of volume V = (π/6)·d³.
func (d *Dropper) sinkerBody(density float64) line.Body {
	volume := d.Sinker / LeadDensity
	thick := math.Cbrt(6 * volume / math.Pi)
	return line.Body{
		Weight: sunk(d.Sinker, LeadDensity, density), DragArea: sinkerDrag * math.Pi / 4 * thick * thick,
		Mass: d.Sinker + sinkerAdded*density*volume,
	}
}

// Body is the lure in water of a density.
func (l *Lure) Body(density float64) line.Body {
	return line.Body{
		Weight: sunk(l.Mass, l.Density, density), DragArea: l.DragArea, LiftArea: l.LiftArea,
		Mass: l.Mass + lureAdded*density*l.Mass/l.Density,
	}
}

// sunk is the weight in water, N, of a mass in air.
func sunk(mass, density, water float64) float64 { return mass * line.Gravity * (1 - water/density) }

// piece is a length of the line in water of a density, its drag and friction multiplied.
func (l *Line) piece(name string, length, density, drag, friction float64, load line.Body) line.Piece {
	area := math.Pi / 4 * l.Diameter * l.Diameter
	return line.Piece{
		Name: name, Length: length, Diameter: l.Diameter,
		Weight: (l.Density - density) * line.Gravity * area, AirWeight: l.Density * line.Gravity * area,
		Cn: l.Cn, Ct: l.Ct * friction, Strum: l.Strum * drag, Mass: l.Density * area, Added: density * area, Load: load,
	}
}

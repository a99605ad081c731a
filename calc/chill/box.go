package chill

// outside is the film of a breeze and of radiation on the outer faces, W/(m²·K): between 9 in still air and 23 in a
// wind of 3.4 m/s (ASHRAE, from memory).
const outside = 15

// conductivity, W/(m·K): foams and plywood as in the tables of CIBSE Guide A (polyurethane 0.028; the others from
// memory), solid polyethylene from memory.
func (m Material) conductivity() float64 {
	switch m {
	case Polystyrene:
		return 0.037
	case Wood:
		return 0.14
	case Plastic:
		return 0.4
	default:
		return 0.028
	}
}

// shape is the conduction shape factor of the walls, m: six faces, twelve edges, eight corners (Langmuir, Adams and
// Meikle 1913, as in the textbooks of heat transfer), where no inner length is below a fifth of the wall.
func (b *Box) shape() float64 {
	return b.inner()/b.Wall + 4*0.54*(b.Length+b.Width+b.Height) + 8*0.15*b.Wall
}

// faces is the area of the six faces.
func faces(l, w, h float64) float64 { return 2 * (l*w + w*h + h*l) }

func (b *Box) inner() float64  { return faces(b.Length, b.Width, b.Height) }
func (b *Box) volume() float64 { return b.Length * b.Width * b.Height }

// leak is the heat through the walls for each kelvin, W/K, and the share of the lid in the outer faces. The film
// inside is left out: wet ice and slush take heat far more easily than the walls pass it.
func (b *Box) leak() (leak, lid float64) {
	l, w, h := b.Length+2*b.Wall, b.Width+2*b.Wall, b.Height+2*b.Wall
	outer := faces(l, w, h)
	if b.U > 0 {
		return b.U * b.inner(), l * w / outer
	}
	return 1 / (1/(b.Material.conductivity()*b.shape()) + 1/(outside*outer)), l * w / outer
}

// stowage is the room of a mass of ice as it comes, m³/kg (FAO Fisheries Technical Paper 331, ch. 12, the middle of
// each span).
func (i Ice) stowage() float64 {
	switch i {
	case Block:
		return 1.4e-3
	case Flake:
		return 2.25e-3
	case Tube:
		return 1.8e-3
	default:
		return 1.45e-3
	}
}

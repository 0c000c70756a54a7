package set

// Weigh is what a volume in cubic millimetres weighs, in kilograms, at a density in kilograms per cubic metre; 0 where the
// density is not known.
func Weigh(volume, density float64) float64 { return volume * 1e-9 * density }

// Weight returns what a whole board weighs in kilograms, 0 where its density is not given.
func (b *Board) Weight() float64 { return Weigh(b.Length*b.Width*b.Thick, b.Density) }

// Weight returns what a whole bar weighs in kilograms, 0 where its density is not given.
func (l *Length) Weight() float64 { return Weigh(l.Width*l.Depth*l.Long, l.Density) }

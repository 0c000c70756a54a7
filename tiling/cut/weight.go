package cut

// Weight is what a volume in cubic millimetres weighs, in kilograms, at a density in kilograms per cubic
// metre.
func Weight(volume, density float64) float64 { return volume * 1e-9 * density }

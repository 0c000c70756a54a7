package lettering_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/tdewolff/canvas"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"markout/layout/lettering"
)

// Widths are what the general drawing library canvas measures, which reads the fonts with code of its own.
func TestWidthAgreesWithCanvas(t *testing.T) {
	family := canvas.NewFontFamily("Go")
	require.NoError(t, family.LoadFont(goregular.TTF, 0, canvas.FontRegular))
	require.NoError(t, family.LoadFont(gobold.TTF, 0, canvas.FontBold))
	const pointsPerMillimetre = 72 / 25.4
	for _, bold := range []bool{false, true} {
		style := canvas.FontRegular
		if bold {
			style = canvas.FontBold
		}
		for _, height := range []float64{1.8, 3.5, 20} {
			face := family.Face(lettering.Em(height)*pointsPerMillimetre, canvas.Black, style)
			require.InDelta(t, height, face.Metrics().CapHeight, 0.002*height, "the height of lettering is that of its capitals")
			for _, text := range []string{"", "floor 3C", "1050 L", "7'-6 1/2\"", "Ø89 × 2850", "bollard.12", "check: 150 mm"} {
				require.InDelta(t, face.TextWidth(text), lettering.Width(text, height, bold), 0.001*height, "%q", text)
			}
		}
	}
}

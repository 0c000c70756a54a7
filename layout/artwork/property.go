package artwork

// property numbers the properties of CSS and the presentation attributes that are read here.
type property int

const (
	pFill property = iota
	pFillOpacity
	pFillRule
	pStroke
	pStrokeOpacity
	pStrokeWidth
	pLineCap
	pLineJoin
	pMiterLimit
	pDashes
	pDashOffset
	pColour
	pOpacity
	pDisplay
	pVisibility
	pClipPath
	pClipRule
	pStopColour
	pStopOpacity
	pOverflow
	pFontSize
	pPaintOrder
	pVectorEffect
	pTransform
	pTransformOrigin
	pMask
	pMaskType
	pFilter
	pMarker
	pMarkerStart
	pMarkerMid
	pMarkerEnd
	pBlend
	pRendering
	pX
	pY
	pWidth
	pHeight
	pCX
	pCY
	pR
	pRX
	pRY
	countProperties
)

var propertyNames = [countProperties]string{
	"fill", "fill-opacity", "fill-rule", "stroke", "stroke-opacity", "stroke-width", "stroke-linecap", "stroke-linejoin",
	"stroke-miterlimit", "stroke-dasharray", "stroke-dashoffset", "color", "opacity", "display", "visibility",
	"clip-path", "clip-rule", "stop-color", "stop-opacity", "overflow", "font-size", "paint-order", "vector-effect",
	"transform", "transform-origin", "mask", "mask-type", "filter", "marker", "marker-start", "marker-mid", "marker-end", "mix-blend-mode",
	"image-rendering", "x", "y", "width", "height", "cx", "cy", "r", "rx", "ry",
}

var propertyOf = func() map[string]property {
	m := map[string]property{}
	for p, name := range propertyNames {
		m[name] = property(p)
	}
	return m
}()

func (p property) String() string { return propertyNames[p] }

// declared holds what an element says of each property, empty where it says nothing.
type declared [countProperties]string

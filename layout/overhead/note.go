package overhead

// Note stands on every sheet, table, tag and list of what hangs: who decides.
const Note = "Weights, places and headroom are information for a competent, licensed rigger or engineer under local codes, who decides."

package overhead

// Note stands on every sheet, table, tag and list of what hangs: who decides.
const Note = "Weights, places and headroom are information for a competent, licensed rigger or engineer under local codes, who decides."

// LeftOut stands beside totals: what is in none of them.
const LeftOut = "The weights of the room's own floor and walls, of fixings and lines are not in them."

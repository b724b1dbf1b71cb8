// Package ui is the Ellwand window: panels, the strip of cloth, the width
// table and the reckoning line. It shows what package plan works out and
// knows nothing of packing, textile arithmetic or the file's format.
package ui

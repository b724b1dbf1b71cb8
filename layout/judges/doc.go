// Package judges holds no code, only tests: the exact check of lays and the
// packer, tried against each other and against a geometry library that shares
// nothing with them.
package judges

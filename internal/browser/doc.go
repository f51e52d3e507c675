// Package browser holds tests only: the pages of the invented yard in a real
// browser, on a phone and on a desk. Every page is looked at by axe-core
// (testdata, MPL-2.0, by itself and unchanged), must not be wider than its
// window, and is kept as a picture in docs/screens when the tests run with
// -screens. They need Chromium, as Debian has it; go test -short leaves them out.
package browser

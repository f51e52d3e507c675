//go:build artefact

package artefact

import _ "embed"

//go:embed files/core.wasm.gz
var packed []byte

//go:embed files/core.sum
var sum string

//go:embed files/core.js.wasm.gz
var pagePacked []byte

//go:embed files/core.exec.js
var pageExec []byte

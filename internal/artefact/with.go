//go:build artefact

package artefact

import _ "embed"

//go:embed files/core.wasm.gz
var packed []byte

//go:embed files/core.sum
var sum string

package paper

import (
	"bytes"
	"fmt"
	"html/template"
)

var page = template.Must(template.New("page").Funcs(template.FuncMap{"pc": func(at, of float64) string { return fmt.Sprintf("%.1f", 100*at/of) }}).Parse(`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1"><title>{{.Title}}: {{.Sub}}</title></head>
<body><main><h1>{{.Title}}</h1><p>{{.Sub}}</p>
{{with .Strip}}<figure><svg viewBox="0 0 1000 70" role="img" aria-label="The piece drawn to scale, end A on the left; the table of findings says the same"><rect x="0" y="28" width="1000" height="14" fill="none" stroke="currentColor"/>{{$l := .Length}}{{range .Marks}}<g><line x1="{{pc .From $l}}0" x2="{{pc .To $l}}0" y1="35" y2="35" stroke="currentColor" stroke-width="10"/><text x="{{pc .From $l}}0" y="20" font-size="16">{{.Number}}</text></g>{{end}}</svg><figcaption>Drawn to scale, end A on the left. The numbers are those of the findings below.</figcaption></figure>{{end}}
{{range .Sections}}<section><h2>{{.Heading}}</h2>
{{if .Rows}}<dl>{{range .Rows}}<dt>{{.Label}}{{with .Ref}} <small>({{.}})</small>{{end}}</dt><dd>{{.Value}}</dd>{{end}}</dl>{{end}}
{{if .Head}}<table><thead><tr>{{range .Head}}<th scope="col">{{.}}</th>{{end}}</tr></thead><tbody>{{range .Table}}<tr>{{range .}}<td>{{.}}</td>{{end}}</tr>{{end}}</tbody></table>{{end}}
{{with .Note}}<p>{{.}}</p>{{end}}</section>
{{end}}<footer><p>{{.Foot}}</p></footer></main></body></html>
`))

// HTML writes a paper as one accessible page.
func HTML(d *Doc) ([]byte, error) {
	var b bytes.Buffer
	err := page.Execute(&b, d)
	return b.Bytes(), err
}

package paper

import (
	"bytes"
	"html/template"
	"strings"
)

var page = template.Must(template.New("page").Funcs(template.FuncMap{"upper": strings.ToUpper}).Parse(`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1"><title>{{.Title}}: {{.Sub}}</title>
<style>body{font:1rem/1.5 "Source Sans 3",system-ui,sans-serif;color:#000;background:#fff;max-width:54rem;margin:2rem auto;padding:0 1rem}h2{border-bottom:2px solid;margin-top:2rem;font-size:1.2rem}
dl{display:grid;grid-template-columns:minmax(9rem,19rem) 1fr;gap:0 1rem}dt,dd{margin:0;padding:.3rem 0;border-bottom:1px solid #888;overflow-wrap:anywhere;white-space:pre-line}dd{font-weight:600}dt{display:flex}dt small{flex:0 0 3.2rem}
.missing{outline:2px solid;padding:0 .3rem}.verdict{border:3px solid;padding:.6rem 1rem}.verdict strong{font-size:1.4rem;margin-left:1rem}.alert{background:#000;color:#fff}.apart{border-top:3px dashed}table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:.3rem .6rem .3rem 0;border-bottom:1px solid #888;overflow-wrap:anywhere}
.sign{margin-top:3rem;border-top:1px solid;display:flex;gap:2rem;justify-content:space-between;max-width:36rem}svg{width:100%;height:auto}.parts{list-style:none;padding:0;display:flex;flex-wrap:wrap;gap:.5rem}.parts li{border:1px solid;padding:.2rem .6rem}footer{border-top:1px solid;margin-top:2rem;overflow-wrap:anywhere}</style></head>
<body><main><h1>{{.Title}}</h1><p>{{.Sub}}</p>
{{with .Key}}<p><small>{{.}}</small></p>{{end}}
{{with .Alert}}<p class="verdict alert">{{.Label}} <strong>{{upper .Words}}</strong></p>{{end}}
{{with .Verdict}}<p class="verdict">{{.Label}} <strong>{{upper .Words}}</strong></p>{{end}}
{{range .Sections}}<section{{if .Apart}} class="apart"{{end}}><h2>{{.Heading}}</h2>
{{with .Strip}}<figure>{{with .SVG}}<svg viewBox="0 0 1000 190" role="img" aria-label="The piece drawn to scale; the table says the same">{{.}}</svg>{{end}}
{{if .Parts}}<ul class="parts">{{range .Parts}}<li>{{.Words}}{{range $i, $n := .Numbers}}{{if $i}},{{end}} <strong>{{$n}}</strong>{{end}}</li>{{end}}</ul>{{end}}<figcaption>{{.Caption}}</figcaption></figure>{{end}}
{{if .Rows}}<dl>{{range .Rows}}<dt>{{with .Ref}}<small>{{.}}</small> {{end}}{{.Label}}</dt><dd>{{if .Missing}}<span class="missing">{{.Value}}</span>{{else}}{{.Value}}{{end}}</dd>{{end}}</dl>{{end}}
{{if .Head}}<table><thead><tr>{{range .Head}}<th scope="col">{{.}}</th>{{end}}</tr></thead><tbody>{{range .Table}}<tr>{{range $i, $c := .}}{{if $i}}<td>{{$c}}</td>{{else}}<th scope="row">{{$c}}</th>{{end}}{{end}}</tr>{{end}}</tbody></table>{{end}}
{{with .Note}}<p>{{.}}</p>{{end}}{{range .Sign}}<p class="sign"><span>{{.}}</span> <span>date</span></p>{{end}}</section>
{{end}}<footer><p>{{.Running}}</p><p>{{.Foot}}</p></footer></main></body></html>
`))

// HTML writes a paper as one accessible page.
func HTML(d *Doc) ([]byte, error) {
	var b bytes.Buffer
	err := page.Execute(&b, d)
	return b.Bytes(), err
}

package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"kernbook/internal/app"
	"kernbook/internal/book"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/record"
	"kernbook/internal/tables"
	"kernbook/internal/yard"
)

func newYard() *cobra.Command {
	var f bookFlags
	var name, country, person string
	begin := &cobra.Command{
		Use:   "new FOLDER",
		Short: "Make the folder of a new yard, with its first competent person",
		Example: `  kernbook yard new quillbrook --name "Quillbrook Tree Care" --country GB --person p1
  kernbook person set p1 --yard quillbrook --as p1 --role "competent person" --name "Maud Ferrant"`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			if name == "" || person == "" {
				return errors.New("yard new: --name and --person are needed: what the yard is called, and a short sign for its first competent person")
			}
			if err := record.Country(country, tables.Default()); err != nil { // before there is a folder
				return fmt.Errorf("yard new: %w", err)
			}
			y, err := yard.Open(args[0], yard.Options{New: true})
			if err != nil {
				return status{exitFailed, err}
			}
			defer y.Close()
			who := app.Who{Person: person}
			if _, err := y.EnterPerson(cmd.Context(), who, app.Member{Person: kit.Person{ID: person, Role: "competent person"}}); err != nil {
				return told(err)
			}
			w, err := y.NameYard(cmd.Context(), who, kit.Yard{Name: name, Country: country})
			if err != nil {
				return told(err)
			}
			signNote(cmd, person)
			return f.written(cmd, w, "The yard “%s” has its book in %s. Give --yard %s and --as %s to the other commands.", name, args[0], args[0], person)
		},
	}
	begin.Flags().StringVar(&name, "name", "", "what the yard is called")
	begin.Flags().StringVar(&country, "country", "unknown", "whose law holds there: a `CODE` of the tables, or unknown (then the strictest)")
	begin.Flags().StringVar(&person, "person", "", "a short `SIGN` for its first competent person; the name itself is sealed")
	begin.Flags().BoolVar(&f.json, "json", false, "print JSON")
	return group("yard", "Begin the book of a yard, and say what holds there", begin, yardSet(), yardLimit())
}

func yardSet() *cobra.Command {
	var f bookFlags
	var name, country, every, document, by string
	c := &cobra.Command{
		Use:   "set",
		Short: "Say anew what the yard is called, whose law holds there, and by which written scheme it examines",
		Example: `  kernbook yard set --as p1 --country IE
  kernbook yard set --as p1 --scheme-every "4 months" --scheme-document "examination scheme of 2026" --scheme-by p1`,
		Args: none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return f.with(func(y *yard.Yard) error {
				now, _, err := y.About(cmd.Context())
				if err != nil {
					return err
				}
				for text, into := range map[string]*string{name: &now.Name, country: &now.Country, document: &now.Scheme.Document, by: &now.Scheme.By} {
					if text != "" {
						*into = text
					}
				}
				if every != "" {
					if now.Scheme.Every, err = qty.ParseMonths(every); err != nil {
						return status{exitUsage, fmt.Errorf("yard set: --scheme-every: %w", err)}
					}
				}
				if s := now.Scheme; s != (kit.Scheme{}) && (s.Every == 0 || s.Document == "" || s.By == "") {
					return errors.New("yard set: a written scheme needs all of --scheme-every, --scheme-document and --scheme-by")
				}
				w, err := y.NameYard(cmd.Context(), f.who(), now)
				if err != nil {
					return err
				}
				return f.written(cmd, w, "What is said of the yard “%s” is in the book.", now.Name)
			})
		},
	}
	f.flags(c, true)
	fl := c.Flags()
	fl.StringVar(&name, "name", "", "what the yard is called")
	fl.StringVar(&country, "country", "", "whose law holds there: a `CODE` of the tables, or unknown (then the strictest)")
	fl.StringVar(&every, "scheme-every", "", `the `+"`INTERVAL`"+` of a written examination scheme, such as "4 months"`)
	fl.StringVar(&document, "scheme-document", "", "the `DOCUMENT` that holds the scheme")
	fl.StringVar(&by, "scheme-by", "", "the competent `PERSON` who wrote it")
	return c
}

func yardLimit() *cobra.Command {
	var f bookFlags
	var why string
	var own bool
	c := &cobra.Command{
		Use:   "limit [LIMIT]",
		Short: "Show the limit of doubt that holds, or set the yard's own from today on",
		Example: `  kernbook yard limit
  kernbook yard limit "1 in 2000" --as p1 --why "we replace early"
  kernbook yard limit --default --as p1 --why "no policy of our own any more"`,
		Args: oneAtMost,
		RunE: func(cmd *cobra.Command, args []string) error {
			if own && len(args) > 0 {
				return errors.New("yard limit: name a limit or --default, not both")
			}
			f.enters = own || len(args) > 0
			return f.with(func(y *yard.Yard) error {
				if !f.enters {
					n, mine, err := y.Limit(cmd.Context())
					if err != nil {
						return err
					}
					if f.json {
						return printJSON(cmd, map[string]any{"millionths": n, "own": mine})
					}
					whose := "the tables' own"
					if mine {
						whose = "the yard's own"
					}
					fmt.Fprintf(cmd.OutOrStdout(), "The limit of doubt is %s, %s.\n", chance(n), whose)
					return nil
				}
				limit, say := "", "The tables' own limit of doubt holds from today on."
				if len(args) == 1 {
					limit = args[0]
					say = "The limit of doubt is " + limit + " from today on."
				}
				w, err := y.SetLimit(cmd.Context(), f.who(), limit, why)
				if err != nil {
					return err
				}
				return f.written(cmd, w, "%s", say)
			})
		},
	}
	f.flags(c, true)
	c.Flags().StringVar(&why, "why", "", "the reason")
	c.Flags().BoolVar(&own, "default", false, "the tables' own limit")
	return c
}

func newPerson() *cobra.Command {
	var f bookFlags
	var m app.Member
	var from string
	set := &cobra.Command{
		Use:   "set SIGN",
		Short: "Say who somebody is from a day on; name, body mass and contact are sealed",
		Example: `  kernbook person set p2 --as p1 --role climber --name "Ines Okoro" --mass 78kg
  kernbook person set p3 --as p1 --role "competent person" --from 2019-04-01`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			return f.with(func(y *yard.Yard) error {
				m.ID, m.Keep = args[0], true
				var err error
				if m.From, err = dayFlag(y, from); err != nil {
					return err
				}
				_, unknown := y.Known(cmd.Context(), m.ID)
				w, err := y.EnterPerson(cmd.Context(), f.who(), m)
				if err != nil {
					return err
				}
				switch {
				case unknown != nil:
					signNote(cmd, m.ID)
				case app.Tells(m.ID, m.Name):
					fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: note: the sign %s is a part of the name. It stands in the book already, and stays: only the rest of the name is sealed.\n", m.ID)
				}
				return f.written(cmd, w, "%s is on record.", m.ID)
			})
		},
	}
	f.flags(set, true)
	set.Flags().StringVar(&m.Role, "role", "", `"climber", "storekeeper", "examiner" or "competent person"; without it as on record, and a climber who is new`)
	set.Flags().StringVar(&from, "from", "", "the first `DAY` on which that is so, today at the latest; today where it is not said")
	set.Flags().StringVar(&m.Name, "name", "", "name, sealed")
	set.Flags().StringVar(&m.Mass, "mass", "", "body mass with kit, such as 82kg, sealed")
	set.Flags().StringVar(&m.Contact, "contact", "", "telephone or mail, sealed")
	set.Flags().StringVar(&m.Address, "address", "", "postal address, for the reports of an examiner, sealed")
	set.Flags().StringVar(&m.Qualified, "qualified", "", "qualifications to examine, sealed")
	set.Flags().StringVar(&m.Employed, "employed", "", "name and address of the employer, or \"self-employed\", sealed")
	set.Flags().BoolVar(&m.Left, "left", false, "is no longer in the yard")

	var g bookFlags
	var why string
	forget := &cobra.Command{
		Use:     "forget SIGN",
		Short:   "Destroy somebody's key: name, body mass and contact can never be read again",
		Example: `  kernbook person forget p2 --as p1 --why "left, and asked for it"`,
		Args:    one,
		RunE: func(cmd *cobra.Command, args []string) error {
			return g.with(func(y *yard.Yard) error {
				w, err := y.ForgetPerson(cmd.Context(), g.who(), args[0], why)
				if err != nil {
					return err
				}
				return g.written(cmd, w, "The key of %s is destroyed.", args[0])
			})
		},
	}
	g.flags(forget, true)
	forget.Flags().StringVar(&why, "why", "", "the reason")

	var l bookFlags
	list := &cobra.Command{
		Use:     "list",
		Short:   "List who is in the yard",
		Example: "  kernbook person list --yard quillbrook",
		Args:    none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return l.with(func(y *yard.Yard) error { return listPeople(cmd, &l, y) })
		},
	}
	l.flags(list, false)
	return group("person", "Say who is in the yard", set, list, forget)
}

// signNote says what the sign of somebody new is.
func signNote(cmd *cobra.Command, sign string) {
	fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: note: %s is a sign, no name: it stands in the open in the book, with all that this person enters, and cannot be taken out again. Name, body mass and contact are sealed.\n", sign)
}

// personOut is somebody as they are listed.
type personOut struct {
	ID   string `json:"id"`
	Role string `json:"role"`
	Name string `json:"name,omitempty"`
}

func listPeople(cmd *cobra.Command, f *bookFlags, y *yard.Yard) error {
	var out []personOut
	err := y.Look(cmd.Context(), func(s *fold.State, _ book.Head) error {
		for _, m := range s.People {
			p, _, err := m.On(y.Today())
			if err != nil {
				return err
			}
			role := p.Role
			if p.Competent() && !p.CompetentOn(y.Today()) {
				role = "no longer " + role
			}
			private, _ := s.Private(m.ID, y.Today(), y.App)
			out = append(out, personOut{m.ID, role, private.Name})
		}
		return nil
	})
	if err != nil || f.json {
		if err == nil {
			err = printJSON(cmd, out)
		}
		return err
	}
	for _, p := range out {
		fmt.Fprintf(cmd.OutOrStdout(), "%-8s %-18s %s\n", p.ID, p.Role, p.Name)
	}
	return nil
}

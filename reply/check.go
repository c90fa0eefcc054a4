package reply

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"reflect"
	"slices"
	"strings"
	"text/template"
	"text/template/parse"
)

// checkPlaces refuses a folder that is not there, and texts that lie where no
// letter looks for them: a misspelt folder would change nothing, silently.
func checkPlaces(own fs.FS) error {
	err := fs.WalkDir(own, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || path.Ext(name) != ".tmpl" || name == textLayout || name == htmlLayout {
			return err
		}
		if _, ok := languages[path.Dir(name)]; !ok {
			return fmt.Errorf("%s: no letter looks there; texts go into en/ or fr/, layouts are %s and %s", name, textLayout, htmlLayout)
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("letter texts: %w", err)
	}
	return nil
}

// checkSpeech refuses sentences that no letter has and fields that no letter
// fills, on every branch, also those that the samples do not take.
func checkSpeech(set *template.Template, known []string) error {
	for _, t := range set.Templates() {
		if t.Tree == nil {
			continue
		}
		if path.Ext(t.Name()) == ".tmpl" {
			if err := checkFile(t); err != nil {
				return err
			}
			continue
		}
		if !slices.Contains(known, t.Name()) {
			location, _ := t.Tree.ErrorContext(t.Tree.Root)
			return fmt.Errorf("letter texts: %s: no letter has a text named %q", location, t.Name())
		}
		if err := checkFields(t.Tree, t.Tree.Root); err != nil {
			return err
		}
	}
	return nil
}

// checkFile refuses words that stand outside every named text: they would
// appear nowhere.
func checkFile(t *template.Template) error {
	for _, node := range t.Tree.Root.Nodes {
		if text, ok := node.(*parse.TextNode); ok && strings.TrimSpace(string(text.Text)) == "" {
			continue
		}
		if _, ok := node.(*parse.CommentNode); ok {
			continue
		}
		location, _ := t.Tree.ErrorContext(node)
		return fmt.Errorf("letter texts: %s: words outside {{define}} appear in no letter", location)
	}
	return nil
}

// checkFields walks a template and refuses fields that Facts does not have.
func checkFields(tree *parse.Tree, node parse.Node) error {
	switch n := node.(type) {
	case *parse.ListNode:
		if n == nil {
			return nil
		}
		for _, child := range n.Nodes {
			if err := checkFields(tree, child); err != nil {
				return err
			}
		}
	case *parse.IfNode:
		return checkBranch(tree, &n.BranchNode)
	case *parse.WithNode:
		return checkBranch(tree, &n.BranchNode)
	case *parse.RangeNode:
		return checkBranch(tree, &n.BranchNode)
	case *parse.ActionNode:
		return checkFields(tree, n.Pipe)
	case *parse.PipeNode:
		for _, command := range n.Cmds {
			for _, arg := range command.Args {
				if err := checkFields(tree, arg); err != nil {
					return err
				}
			}
		}
	case *parse.FieldNode:
		return checkField(tree, n, n.Ident[0])
	case *parse.VariableNode:
		if n.Ident[0] == "$" && len(n.Ident) > 1 {
			return checkField(tree, n, n.Ident[1])
		}
	}
	return nil
}

func checkField(tree *parse.Tree, node parse.Node, name string) error {
	if _, ok := reflect.TypeFor[Facts]().FieldByName(name); ok {
		return nil
	}
	location, _ := tree.ErrorContext(node)
	return fmt.Errorf("letter texts: %s: there is no %s", location, node)
}

func checkBranch(tree *parse.Tree, branch *parse.BranchNode) error {
	return errors.Join(
		checkFields(tree, branch.Pipe),
		checkFields(tree, branch.List),
		checkFields(tree, branch.ElseList))
}

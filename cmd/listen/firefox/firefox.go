// Package firefox drives Firefox in tests, by the protocol that it speaks itself:
// W3C's WebDriver BiDi, over a WebSocket on this machine. The rest of the tests'
// browsing is Chromium's.
package firefox

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os/exec"
	"regexp"
	"time"

	"golang.org/x/net/websocket"
)

// Program is what is started.
const Program = "firefox-esr"

// Tab is a window of a Firefox that was started for it alone, with a memory of
// its own.
type Tab struct {
	program *exec.Cmd
	profile string
	line    *websocket.Conn
	last    int
	context string
}

// origin is what a WebSocket's line must name (RFC 6455, 4.1), and Firefox lets in.
const origin = "http://localhost"

// listens is what Firefox says of where it listens.
var listens = regexp.MustCompile(`WebDriver BiDi listening on (ws://\S+)`)

// Open starts Firefox, with an empty folder for its memory, and opens a window of
// that size, in CSS pixels.
func Open(ctx context.Context, profile string, width, height int) (*Tab, error) {
	t := &Tab{profile: profile}
	if err := t.start(ctx, width, height); err != nil {
		t.Close()
		return nil, err
	}
	return t, nil
}

func (t *Tab) start(ctx context.Context, width, height int) error {
	t.program = exec.CommandContext(ctx, Program, "--headless", "--no-remote", "--profile", t.profile, "--remote-debugging-port", "0", "--remote-allow-origins", origin, "about:blank")
	said, err := t.program.StderrPipe()
	if err != nil {
		return err
	}
	if err := t.program.Start(); err != nil {
		return err
	}
	at := make(chan string, 1)
	go func() {
		for lines := bufio.NewScanner(said); lines.Scan(); {
			if m := listens.FindStringSubmatch(lines.Text()); m != nil {
				at <- m[1]
			}
		}
	}()
	select {
	case address := <-at:
		if t.line, err = websocket.Dial(address+"/session", "", origin); err != nil {
			return err
		}
	case <-time.After(time.Minute):
		return errors.New("where Firefox listens it does not say")
	}
	if _, err := t.ask("session.new", obj{"capabilities": obj{}}); err != nil {
		return err
	}
	tree, err := t.ask("browsingContext.getTree", obj{})
	if err != nil {
		return err
	}
	var is struct{ Contexts []struct{ Context string } }
	if err := json.Unmarshal(tree, &is); err != nil || len(is.Contexts) == 0 {
		return fmt.Errorf("no window is open in Firefox: %w", err)
	}
	t.context = is.Contexts[0].Context
	_, err = t.ask("browsingContext.setViewport", obj{"context": t.context, "viewport": obj{"width": width, "height": height}})
	return err
}

type obj = map[string]any

// ask sends a command (WebDriver BiDi, 3.4) and waits for what it gives; what
// Firefox tells by itself meanwhile is passed over.
func (t *Tab) ask(method string, params obj) (json.RawMessage, error) {
	t.last++
	if err := t.line.SetDeadline(time.Now().Add(time.Minute)); err != nil {
		return nil, err
	}
	if err := websocket.JSON.Send(t.line, obj{"id": t.last, "method": method, "params": params}); err != nil {
		return nil, err
	}
	for {
		var got struct {
			ID             int
			Type           string
			Error, Message string
			Result         json.RawMessage
		}
		if err := websocket.JSON.Receive(t.line, &got); err != nil {
			return nil, err
		}
		switch {
		case got.ID != t.last:
		case got.Type == "error":
			return nil, fmt.Errorf("%s: %s: %s", method, got.Error, got.Message)
		default:
			return got.Result, nil
		}
	}
}

// Visit goes to an address and waits until it is loaded.
func (t *Tab) Visit(url string) error {
	_, err := t.ask("browsingContext.navigate", obj{"context": t.context, "url": url, "wait": "complete"})
	return err
}

// Ask is what a script's expression gives, as text.
func (t *Tab) Ask(js string) (string, error) {
	got, err := t.ask("script.evaluate", obj{"expression": "(async () => String(await (" + js + ")))()", "target": obj{"context": t.context}, "awaitPromise": true})
	if err != nil {
		return "", err
	}
	var is struct {
		Type             string
		Result           struct{ Value string }
		ExceptionDetails struct{ Text string }
	}
	if err := json.Unmarshal(got, &is); err != nil {
		return "", err
	}
	if is.Type != "success" {
		return "", errors.New(is.ExceptionDetails.Text)
	}
	return is.Result.Value, nil
}

// Click presses the mouse at a place of the window.
func (t *Tab) Click(x, y float64) error {
	at := obj{"type": "pointerMove", "x": int(x), "y": int(y)}
	return t.act("pointer", "mouse", at, obj{"type": "pointerDown", "button": 0}, obj{"type": "pointerUp", "button": 0})
}

// Type presses keys one after the other.
func (t *Tab) Type(text string) error {
	var keys []obj
	for _, r := range text {
		if r == '\r' || r == '\n' {
			r = '\ue007' // Enter (WebDriver, 17.4.2)
		}
		keys = append(keys, obj{"type": "keyDown", "value": string(r)}, obj{"type": "keyUp", "value": string(r)})
	}
	return t.act("key", "keys", keys...)
}

// Paste presses the keys that paste. What is on the clipboard was copied there.
func (t *Tab) Paste() error {
	const control = "\ue009" // WebDriver, 17.4.2
	return t.act("key", "keys", obj{"type": "keyDown", "value": control}, obj{"type": "keyDown", "value": "v"}, obj{"type": "keyUp", "value": "v"}, obj{"type": "keyUp", "value": control})
}

func (t *Tab) act(kind, id string, actions ...obj) error {
	_, err := t.ask("input.performActions", obj{"context": t.context, "actions": []obj{{"type": kind, "id": id, "actions": actions}}})
	return err
}

// Files chooses files in a field for them.
func (t *Tab) Files(selector string, files ...string) error {
	got, err := t.ask("browsingContext.locateNodes", obj{"context": t.context, "locator": obj{"type": "css", "value": selector}})
	if err != nil {
		return err
	}
	var is struct{ Nodes []struct{ SharedID string } }
	if err := json.Unmarshal(got, &is); err != nil || len(is.Nodes) == 0 {
		return fmt.Errorf("there is no %s: %w", selector, err)
	}
	_, err = t.ask("input.setFiles", obj{"context": t.context, "element": obj{"sharedId": is.Nodes[0].SharedID}, "files": files})
	return err
}

// Close ends Firefox.
func (t *Tab) Close() {
	if t.line != nil {
		_, _ = t.ask("browser.close", obj{})
		_ = t.line.Close()
	}
	if t.program != nil && t.program.Process != nil {
		_ = t.program.Process.Kill()
		_ = t.program.Wait()
	}
}

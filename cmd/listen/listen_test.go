package listen

import (
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// opened is a door on loopback, and what it lets through.
func opened(t *testing.T) (base string, key string) {
	t.Helper()
	s := httptest.NewUnstartedServer(nil)
	key = Key()
	d := Door{Cookie: "twodip", Key: key, Hosts: Hosts(s.Listener.Addr()), Closed: "closed"}
	s.Config.Handler = d.Guard(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if _, err := io.Copy(io.Discard, r.Body); err != nil {
			http.Error(w, "too much", http.StatusRequestEntityTooLarge)
			return
		}
		_, _ = io.WriteString(w, "inside")
	}))
	s.Start()
	t.Cleanup(s.Close)
	return s.URL, key
}

// send sends one request and does not follow where it leads.
func send(t *testing.T, method, url, body string, with func(*http.Request)) (int, string, http.Header) {
	t.Helper()
	r, err := http.NewRequest(method, url, strings.NewReader(body))
	require.NoError(t, err)
	with(r)
	c := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	answer, err := c.Do(r)
	require.NoError(t, err)
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	return answer.StatusCode, string(text), answer.Header
}

func TestOnlyTheKeyOpensTheDoor(t *testing.T) {
	base, key := opened(t)
	plain := func(*http.Request) {}
	status, said, head := send(t, "GET", base+"/", "", plain)
	assert.Equal(t, http.StatusForbidden, status)
	assert.Contains(t, said, "closed")
	assert.Equal(t, Policy, head.Get("Content-Security-Policy"))
	status, _, _ = send(t, "GET", base+"/?key=another", "", plain)
	assert.Equal(t, http.StatusForbidden, status)
	status, _, head = send(t, "GET", base+"/glazes?key="+key+"&x=1", "", plain)
	assert.Equal(t, http.StatusSeeOther, status)
	assert.Equal(t, "/glazes?x=1", head.Get("Location"), "the key does not stay in the address")
	// RFC 6265bis: HttpOnly keeps it from scripts, SameSite=Strict from other sites.
	assert.Equal(t, "twodip="+key+"; Path=/; HttpOnly; SameSite=Strict", head.Get("Set-Cookie"))
	status, said, _ = send(t, "GET", base+"/", "", withKey(key))
	assert.Equal(t, http.StatusOK, status)
	assert.Equal(t, "inside", said)
}

func withKey(key string) func(*http.Request) {
	return func(r *http.Request) { r.AddCookie(&http.Cookie{Name: "twodip", Value: key}) }
}

// A page of another site leads its own name here (DNS rebinding), or sends what
// a browser lets any page send: Fetch standard, Sec-Fetch-Site and Origin.
func TestOtherSitesAreRefused(t *testing.T) {
	base, key := opened(t)
	for name, of := range map[string]struct {
		method string
		change func(*http.Request)
		want   int
	}{
		"another name for this machine": {"GET", func(r *http.Request) { r.Host = "studio.example" }, http.StatusMisdirectedRequest},
		"another port":                  {"GET", func(r *http.Request) { r.Host = "127.0.0.1:1" }, http.StatusMisdirectedRequest},
		"a form of another origin":      {"POST", func(r *http.Request) { r.Header.Set("Origin", "http://studio.example") }, http.StatusForbidden},
		"a form of no origin":           {"POST", func(r *http.Request) { r.Header.Set("Origin", "null") }, http.StatusForbidden},
		"a fetch across sites":          {"POST", func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") }, http.StatusForbidden},
		"another port of this machine":  {"POST", func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "same-site") }, http.StatusForbidden},
		"a method that changes":         {"PUT", func(*http.Request) {}, http.StatusMethodNotAllowed},
		"our own form":                  {"POST", func(r *http.Request) { r.Header.Set("Origin", base) }, http.StatusOK},
	} {
		status, _, _ := send(t, of.method, base+"/", "", func(r *http.Request) {
			withKey(key)(r)
			of.change(r)
		})
		assert.Equal(t, of.want, status, name)
	}
}

func TestABodyIsBounded(t *testing.T) {
	base, key := opened(t)
	status, _, _ := send(t, "POST", base+"/", strings.Repeat("x", mostForm), withKey(key))
	assert.Equal(t, http.StatusOK, status)
	status, _, _ = send(t, "POST", base+"/", strings.Repeat("x", mostForm+1), withKey(key))
	assert.Equal(t, http.StatusRequestEntityTooLarge, status)
}

func TestALoopbackListenerIsCalledByItsNames(t *testing.T) {
	assert.Contains(t, Hosts(&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 80}), "localhost:80")
	assert.Equal(t, []string{"192.0.2.7:80"}, Hosts(&net.TCPAddr{IP: net.IPv4(192, 0, 2, 7), Port: 80}))
}

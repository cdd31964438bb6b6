package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"

	"github.com/twodip/twodip/tiles"
)

// OwnerFile says who writes into the wall, where the drive cannot lock files. It
// is there as long as the command is at work; one that a crash left behind is
// taken away by a person, who alone can know.
const OwnerFile = ".twodip.owner"

// own takes the wall by a file that only one can make.
func (f Folder) own() (release func(), err error) {
	file, err := os.OpenFile(f.Path(OwnerFile), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return nil, f.owned()
	}
	if err != nil {
		return nil, Explain(f.Called(), err)
	}
	host, _ := os.Hostname()
	_, err = fmt.Fprintf(file, "%s\n%d\n%s\n", host, os.Getpid(), time.Now().UTC().Format("2006-01-02 15:04 UTC"))
	if err = errors.Join(err, file.Close()); err != nil {
		return nil, Explain(f.Called(), errors.Join(err, os.Remove(file.Name())))
	}
	var once sync.Once // a second release must not take away another's file
	return func() { once.Do(func() { _ = os.Remove(file.Name()) }) }, nil
}

// owned says who has the wall by its file.
func (f Folder) owned() error {
	data, _ := f.Read(OwnerFile, 1<<10)
	lines := append(strings.Split(string(data), "\n"), "", "", "")
	host, process, since := lines[0], lines[1], lines[2]
	said := func(what, do string) error {
		return tiles.Problems{{File: f.Called(), What: what, Do: do}}
	}
	here, _ := os.Hostname()
	pid, err := strconv.Atoi(process)
	if err == nil && host == here && ended(pid) {
		return said(fmt.Sprintf("a twodip command of %s was cut off and left %s behind", since, OwnerFile), "remove that file from the wall's folder, then run this again")
	}
	if err != nil {
		return said(OwnerFile+" says that another twodip command is at work on this wall", "wait until it has ended; if none is, remove that file")
	}
	return said(fmt.Sprintf("another twodip command is at work on this wall, on the computer %s since %s", host, since),
		fmt.Sprintf("wait until it has ended; if none is at work there, remove %s from the wall's folder", OwnerFile))
}

// ended says that no such process runs on this computer.
func ended(pid int) bool {
	p, err := os.FindProcess(pid)
	if err != nil {
		return true
	}
	defer func() { _ = p.Release() }()
	return errors.Is(p.Signal(syscall.Signal(0)), os.ErrProcessDone)
}

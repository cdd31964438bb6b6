module github.com/twodip/twodip

go 1.26

package tiles

// BucketState says whether a glaze's bucket can be dipped in today.
type BucketState string

// The states of a bucket, in the words a teacher writes.
const (
	BucketUnsaid   BucketState = "" // the wall keeps no such list
	BucketReady    BucketState = "ready"
	BucketLow      BucketState = "low" // ready, and not for long
	BucketRemixing BucketState = "being remixed"
	BucketGone     BucketState = "gone"
)

// Usable says that there is glaze to dip in.
func (s BucketState) Usable() bool { return s == BucketReady || s == BucketLow }

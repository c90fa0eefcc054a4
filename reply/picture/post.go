package picture

// Post is a chat post as plain text, for drawing.
type Post struct {
	Place   string   // where it stands: "orders channel", "in the thread"
	Title   string   // one line, drawn bold; "" for none
	Lines   []string // paragraphs, wrapped as needed
	Buttons []Button
	Note    string // small print under it: state, who and when
	PNG     []byte // a picture in the post, nil for none
	Replies []Post
}

// Button is a button of a post.
type Button struct {
	Label   string
	Primary bool
}

// OfPost draws a post with its replies.
func OfPost(post Post) (Picture, error) {
	return Picture{}, nil
}

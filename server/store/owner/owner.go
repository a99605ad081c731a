// Package owner knows whose a folder is: what root writes in somebody else's must stay that one's, and who may not
// read it is told who may.
package owner

// Advice says how to type a command as the user whom a folder belongs to, as a sentence; "" if it is this user's, or if
// nobody knows whose it is.
func Advice(dir string) string {
	name := other(dir)
	if name == "" {
		return ""
	}
	return dir + " belongs to " + name + ": type the same command with sudo -u " + name + " before it"
}

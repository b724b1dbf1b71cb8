package settings_test

import (
	"fmt"

	"ellwand/settings"
)

func ExampleUsersFolders() {
	user := map[string]string{"HOME": "/home/ferryman", "XDG_STATE_HOME": "/var/state"}
	f, err := settings.UsersFolders("linux", func(name string) string { return user[name] })
	fmt.Println(f.Config, f.State, err)
	// Output: /home/ferryman/.config/ellwand /var/state/ellwand <nil>
}

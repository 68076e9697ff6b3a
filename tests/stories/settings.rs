//! The settings file, as far as it is seen without a terminal. What a moved key does is told in tests/screens.

use crate::shell::Computer;

#[test]
fn the_file_has_its_place_beside_others_of_its_kind_or_where_one_says() {
    let home = Computer::new();
    let paths = home.ok(&["paths"]);
    assert!(paths.contains("settings.toml (not there, and need not be)"), "{paths}");
    let mut call = home.command(&["paths", "--json"]);
    let output = call.env("BRIMFUL_CONFIG", home.path("own")).output().unwrap();
    let told = String::from_utf8(output.stdout).unwrap();
    let path = home.path("own").join("settings.toml");
    assert!(told.contains(&format!("\"settings\":\"{}\"", path.display())), "{told}");
    assert!(told.contains("\"settings_there\":false"), "{told}");
    std::fs::create_dir(home.path("own")).unwrap();
    home.write("own/settings.toml", "mouse = false\n");
    let output = home.command(&["paths"]).env("BRIMFUL_CONFIG", home.path("own")).output().unwrap();
    assert!(String::from_utf8(output.stdout).unwrap().ends_with("own/settings.toml\n"));
}

#[test]
fn a_command_of_the_shell_needs_no_settings() {
    let home = Computer::new();
    std::fs::create_dir(home.path("own")).unwrap();
    home.write("own/settings.toml", "mouse = \n");
    let output = home.command(&["profile"]).env("BRIMFUL_CONFIG", home.path("own")).output().unwrap();
    assert!(output.status.success(), "{output:?}");
}

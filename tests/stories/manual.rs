//! What the program tells other programs of itself: completions and the manual.

use crate::shell::Computer;

/// The commands that the help names.
fn commands(home: &Computer) -> Vec<String> {
    let help = home.ok(&["--help"]);
    let rows = help.lines().skip_while(|line| *line != "Commands:").skip(1).take_while(|line| !line.is_empty());
    let names: Vec<String> = rows.filter_map(|row| row.split_whitespace().next().map(str::to_owned)).collect();
    assert!(names.len() > 30 && names.contains(&"where-is".to_owned()), "{names:?}");
    names
}

#[test]
fn every_shell_is_told_every_command() {
    let home = Computer::new();
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let script = home.ok(&["completions", shell]);
        for name in commands(&home) {
            assert!(script.contains(&name), "{shell} is not told of {name}");
        }
        assert!(script.contains("open-price"), "{shell} is not told of options");
    }
    assert!(home.no(2, &["completions", "sh"]).contains("bash, elvish, fish, powershell, zsh"));
    assert!(!home.file().exists() && !home.path("state").exists(), "it left something behind");
}

#[test]
fn bash_takes_its_completions() {
    let home = Computer::new();
    home.write("brimful.bash", &home.ok(&["completions", "bash"]));
    let asked = "source brimful.bash; COMP_WORDS=(brimful whe); COMP_CWORD=1; \
                 _brimful brimful whe brimful; echo \"${COMPREPLY[@]}\"";
    let mut bash = std::process::Command::new("bash");
    let Ok(output) = bash.args(["-c", asked]).current_dir(home.path("")).output() else {
        return; // There is no bash here to ask.
    };
    assert_eq!(String::from_utf8(output.stdout).unwrap().trim(), "where-is", "{:?}", output.stderr);
}

#[test]
fn the_manual_has_a_page_for_the_program_and_for_each_command() {
    let home = Computer::new();
    let page = home.ok(&["man"]);
    for heading in [".TH brimful 1", ".SH NAME", ".SH SYNOPSIS", ".SH DESCRIPTION", ".SH OPTIONS", ".SH SUBCOMMANDS"] {
        assert!(page.lines().any(|line| line.starts_with(heading)), "no {heading} in\n{page}");
    }
    for name in commands(&home) {
        // A hyphen that is no break stands behind a backslash.
        let called = format!("brimful\\-{}(1)", name.replace('-', "\\-"));
        assert!(page.contains(&called), "no {called} in\n{page}");
        let own = home.ok(&["man", &name]);
        assert!(
            own.contains(&format!(".TH brimful\\-{} 1", name.replace('-', "\\-")))
                || own.contains(&format!(".TH brimful-{name} 1")),
            "{own}"
        );
    }
    assert!(home.ok(&["man", "box", "plan"]).contains(".SH SYNOPSIS"));
    let told = home.no(2, &["man", "box", "plant"]);
    assert!(told.contains("no command \"box plant\"") && told.contains("plan,"), "{told}");
}

//! `boardwright new`, `keys`, help, usage and colours.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::{outside, program};
use program::{assert_code, empty, err, names, out, program, run_in};

#[test]
fn new_writes_the_starter_once() {
    let folder = empty("cli-new");
    let first = run_in(&folder, &["new"]);
    assert_code(&first, 0);
    let text = std::fs::read_to_string(folder.join("board.toml")).unwrap();
    assert_eq!(text, boardwright::design::starter());
    assert_code(&run_in(&folder, &["check", "board.toml"]), 0);

    std::fs::write(folder.join("board.toml"), "mine").unwrap();
    let again = run_in(&folder, &["new"]);
    assert_code(&again, 3);
    assert!(err(&again).contains("--force"), "{}", err(&again));
    assert_eq!(std::fs::read(folder.join("board.toml")).unwrap(), b"mine");

    assert_code(&run_in(&folder, &["new", "--force"]), 0);
    assert_eq!(
        std::fs::read_to_string(folder.join("board.toml")).unwrap(),
        text
    );
    assert_eq!(names(&folder), ["board.toml"]);
}

#[test]
fn new_prints_to_a_pipe_and_refuses_folders() {
    let folder = empty("cli-new-pipe");
    let printed = run_in(&folder, &["new", "-"]);
    assert_code(&printed, 0);
    assert_eq!(out(&printed), boardwright::design::starter());
    for arguments in [
        &["new", "."][..],
        &["new", ".", "--force"],
        &["new", "no/such/folder.toml"],
        &["new", "no/such/folder.toml", "--force"],
    ] {
        let refused = run_in(&folder, arguments);
        assert_code(&refused, 3);
        assert!(out(&refused).is_empty());
    }
    assert!(names(&folder).is_empty());
}

#[test]
fn keys_explains_every_key() {
    let folder = empty("cli-keys");
    let keys = run_in(&folder, &["keys"]);
    assert_code(&keys, 0);
    for table in boardwright::design::tables() {
        for key in table.keys {
            let cell = format!("| `{}` |", key.name);
            assert!(out(&keys).contains(&cell), "{cell}");
        }
    }
}

#[test]
fn help_documents_the_exit_codes() {
    let folder = empty("cli-help");
    let help = run_in(&folder, &["--help"]);
    assert_code(&help, 0);
    let text = out(&help);
    for line in [
        "0  done",
        "1  the design",
        "2  wrong usage",
        "3  a file",
        "4  done, but",
    ] {
        assert!(text.contains(line), "{line}");
    }
    for command in ["new", "check", "build", "keys"] {
        let help = run_in(&folder, &[command, "--help"]);
        assert_code(&help, 0);
        assert!(out(&help).contains("Usage: boardwright"), "{command}");
        assert!(out(&help).lines().all(|l| l.chars().count() <= 100));
    }
    assert_code(&run_in(&folder, &["--version"]), 0);
}

#[test]
fn wrong_usage_ends_with_2_and_a_hint() {
    let folder = empty("cli-usage");
    let cases: [(&[&str], &str); 6] = [
        (&["bild", "x"], "'build'"),
        (&["check", "x", "--jsn"], "'--json'"),
        (&["build", "x"], "--out"),
        (&["check"], "FILE"),
        (&["--color", "pink", "keys"], "always"),
        (&[], "Usage"),
    ];
    for (arguments, hint) in cases {
        let refused = run_in(&folder, arguments);
        assert_code(&refused, 2);
        assert!(err(&refused).contains(hint), "{}", err(&refused));
        assert!(out(&refused).is_empty());
    }
}

#[test]
fn colours_only_when_they_are_wanted() {
    let folder = empty("cli-colours");
    assert_code(&run_in(&folder, &["new"]), 0);
    let coloured = |set: &[(&str, &str)], arguments: &[&str]| {
        let mut command = program();
        command.current_dir(&folder).args(arguments);
        for (name, value) in set {
            command.env(name, value);
        }
        let output = command.output().unwrap();
        [output.stdout, output.stderr].concat().contains(&0x1b)
    };
    let check = &["check", "board.toml"];
    let always = &["check", "board.toml", "--color", "always"];
    let never = &["check", "board.toml", "--color=never"];
    assert!(!coloured(&[], check), "a pipe is no terminal");
    assert!(coloured(&[], always));
    assert!(!coloured(&[], never));
    assert!(!coloured(&[("NO_COLOR", "1")], check));
    // What is asked for on the line goes over the surroundings.
    assert!(coloured(&[("NO_COLOR", "1")], always));
    assert!(coloured(&[], &["--color", "always", "--help"]));
    assert!(!coloured(&[], &["--help"]));
    assert!(coloured(&[], &["check", "nowhere", "--color", "always"]));
    assert!(!coloured(&[], &["check", "nowhere"]));
}

/// On a terminal NO_COLOR decides; `script` lends one.
#[cfg(target_os = "linux")]
#[test]
fn no_color_is_heeded_on_a_terminal() {
    use std::process::Command;
    let Some(lender) = outside::use_program(|| outside::on_path(&["script"])) else {
        return;
    };
    let folder = empty("cli-terminal");
    assert_code(&run_in(&folder, &["new"]), 0);
    let on_terminal = |no_color: Option<&str>| {
        let line = format!("{} check board.toml", env!("CARGO_BIN_EXE_boardwright"));
        let mut command = Command::new(&lender);
        command.args(["-qec", &line, "/dev/null"]);
        command.current_dir(&folder).env("TERM", "xterm");
        match no_color {
            Some(value) => command.env("NO_COLOR", value),
            None => command.env_remove("NO_COLOR"),
        };
        command.output().unwrap().stdout
    };
    assert!(on_terminal(None).contains(&0x1b));
    assert!(!on_terminal(Some("1")).contains(&0x1b));
    // An empty value counts as none.
    assert!(on_terminal(Some("")).contains(&0x1b));
}

#[cfg(unix)]
#[test]
fn a_reader_that_goes_away_is_no_error() {
    use std::process::{Command, Stdio};
    let folder = empty("cli-pipe");
    assert_code(&run_in(&folder, &["new"]), 0);
    for arguments in [
        "keys",
        "new -",
        "check board.toml",
        "check board.toml --json",
        "--help",
    ] {
        let mut child = Command::new(env!("CARGO_BIN_EXE_boardwright"))
            .current_dir(&folder)
            .args(arguments.split(' '))
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        // Gone before a word is written.
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        assert_code(&output, 0);
        assert_eq!(err(&output), "", "{arguments}");
    }
}

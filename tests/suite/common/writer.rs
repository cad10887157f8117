//! Writing a folder as `build` does, without a board: this program starts itself again for it, so that a kill at any step costs milliseconds.

use std::io::Write;
use std::path::Path;
use std::process::Command;

use boardwright::cli::write_folder;
use boardwright::output::{Manifest, OutFile};

/// Set in the program that only writes: `plain`, or `r12` for a folder with more files.
const WRITES: &str = "BOARDWRIGHT_TEST_WRITES";

/// A program that writes the folder `out` where it stands.
pub fn writer(r12: bool) -> Command {
    let mut command = Command::new(std::env::current_exe().unwrap());
    command.args(arguments());
    command.env(WRITES, if r12 { "r12" } else { "plain" });
    command
}

/// The arguments with which this program runs the test below alone.
pub fn arguments() -> [&'static str; 5] {
    [
        "--exact",
        "common::writer::the_folder_holds_the_files",
        "--test-threads=1",
        "--nocapture",
        "--quiet",
    ]
}

/// Files in number, size and folders like those of a board.
pub fn board_files(r12: bool) -> Vec<OutFile> {
    let mut folders = vec![("dxf", "dxf"), ("svg", "svg"), ("tables", "csv")];
    if r12 {
        folders.push(("dxf-r12", "dxf"));
    }
    let mut files = Vec::new();
    for (folder, ending) in folders {
        let numbered = (1..=40).map(|number| format!("part-{number:02}"));
        for (i, name) in numbered.chain(["spine".to_owned()]).enumerate() {
            files.push(OutFile {
                path: format!("{folder}/{name}.{ending}"),
                what: "a part".into(),
                bytes: format!("{folder} {name}\n")
                    .repeat(50 * (i + 1))
                    .into_bytes(),
            });
        }
    }
    files.push(OutFile {
        path: "index.html".into(),
        what: "this index".into(),
        bytes: format!("{} files\n", files.len()).into_bytes(),
    });
    files.push(Manifest::new("quick", &files).file().unwrap());
    files
}

/// Without [`WRITES`] a test like others; with it the program that [`writer`] starts.
#[test]
fn the_folder_holds_the_files() {
    let Some(kind) = std::env::var_os(WRITES) else {
        let folder = super::program::empty("writer").join("out");
        let files = board_files(true);
        write_folder(&folder, &files, false).unwrap();
        let found = super::program::files(&folder);
        let mut written: Vec<_> = files.into_iter().map(|f| (f.path, f.bytes)).collect();
        written.sort();
        assert!(found == written);
        return;
    };
    let done = write_folder(Path::new("out"), &board_files(kind == "r12"), false);
    let code = match done {
        Ok(notes) => {
            notes.iter().for_each(|note| say(&format!("note: {note}")));
            0
        }
        Err(failure) => {
            say(&format!("error: {}", failure.message));
            failure.code
        }
    };
    std::process::exit(i32::from(code));
}

/// Says a line where it can be said: a full disk may have no room for it either.
fn say(line: &str) {
    let _ = writeln!(std::io::stderr(), "{line}");
}

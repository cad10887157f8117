//! `boardwright build`: what it writes, what it leaves alone, what it leaves behind.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::program;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use boardwright::board::Board;
use boardwright::design;
use boardwright::output::{self, OutputOptions};
use boardwright::views::report::report;
use program::{assert_code, empty, err, example, files, names, out, run_in};
use serde_json::Value;

const EXAMPLE: &str = "round-tail-6ft4.toml";

/// A folder with an example built into `out`.
fn built(name: &str) -> PathBuf {
    let folder = empty(name);
    assert_code(&build(&folder, &[]), 0);
    folder
}

fn build(folder: &Path, more: &[&str]) -> std::process::Output {
    let file = example(EXAMPLE);
    let mut arguments = vec!["build", &file, "-o", "out"];
    arguments.extend(more);
    run_in(folder, &arguments)
}

#[test]
fn the_manifest_lists_exactly_what_is_there() {
    let folder = built("build-manifest");
    assert_eq!(names(&folder), ["out"]);
    let written = files(&folder.join("out"));
    let manifest: Value =
        serde_json::from_slice(&fs::read(folder.join("out/files.json")).unwrap()).unwrap();
    let mut listed: BTreeSet<(String, u64)> = manifest["files"]
        .as_array()
        .unwrap()
        .iter()
        .map(|f| {
            (
                f["path"].as_str().unwrap().to_owned(),
                f["bytes"].as_u64().unwrap(),
            )
        })
        .collect();
    let own = fs::metadata(folder.join("out/files.json")).unwrap().len();
    listed.insert(("files.json".into(), own));
    let found: BTreeSet<(String, u64)> = written
        .iter()
        .map(|(path, bytes)| (path.clone(), bytes.len() as u64))
        .collect();
    assert_eq!(listed, found);

    let json = build(&folder, &["--json"]);
    let told: Value = serde_json::from_slice(&json.stdout).unwrap();
    assert_eq!(told["files"].as_array().unwrap().len(), found.len());
    let text = out(&build(&folder, &[]));
    assert!(
        text.contains(&format!("wrote {} files", found.len())),
        "{text}"
    );
}

#[test]
fn two_processes_and_the_library_give_the_same_bytes() {
    let folder = empty("build-bytes");
    let file = example(EXAMPLE);
    for name in ["a", "b"] {
        assert_code(&run_in(&folder, &["build", &file, "-o", name, "--r12"]), 0);
    }
    let (a, b) = (files(&folder.join("a")), files(&folder.join("b")));
    assert!(a.iter().any(|f| f.0 == "dxf-r12/spine.dxf"));
    same(&a, &b);
    let text = fs::read_to_string(&file).unwrap();
    let options = OutputOptions { r12: true };
    for _ in 0..2 {
        let board = Board::new(design::parse(&text, "x").unwrap()).unwrap();
        let made = output::files(&board, &report(&board), &options).unwrap();
        let mut made: Vec<(String, Vec<u8>)> =
            made.into_iter().map(|f| (f.path, f.bytes)).collect();
        made.sort();
        same(&a, &made);
    }
}

#[track_caller]
fn same(a: &[(String, Vec<u8>)], b: &[(String, Vec<u8>)]) {
    let paths = |files: &[(String, Vec<u8>)]| -> Vec<String> {
        files.iter().map(|f| f.0.clone()).collect()
    };
    assert_eq!(paths(a), paths(b));
    for (a, b) in a.iter().zip(b) {
        assert!(a.1 == b.1, "{} differs", a.0);
    }
}

/// Neither the place nor the day nor the machine may be in the files.
#[test]
fn the_files_hold_no_paths_of_this_machine() {
    let folder = built("build-private");
    let root = env!("CARGO_MANIFEST_DIR").as_bytes();
    for (path, bytes) in files(&folder.join("out")) {
        assert!(
            !bytes.windows(root.len()).any(|w| w == root),
            "{path} names the checkout"
        );
    }
}

#[test]
fn the_index_links_only_to_files_that_are_there_and_fetches_nothing() {
    let folder = built("build-index");
    let html = fs::read_to_string(folder.join("out/index.html")).unwrap();
    let links: BTreeSet<&str> = html
        .split("href=\"")
        .skip(1)
        .map(|rest| rest.split('"').next().unwrap())
        .collect();
    for link in &links {
        match link.strip_prefix('#') {
            Some(place) => assert!(html.contains(&format!("id=\"{place}\"")), "{link}"),
            None => assert!(folder.join("out").join(link).is_file(), "{link}"),
        }
    }
    let others = files(&folder.join("out"));
    for (path, _) in others.iter().filter(|f| !f.0.starts_with("index")) {
        if path != "files.json" {
            assert!(links.contains(path.as_str()), "{path} is not linked");
        }
    }
    assert!(!html.contains("http:") && !html.contains("https:") && !html.contains("src="));
    assert!(html.contains("<svg viewBox=") && html.contains("respiratory sensitiser"));
}

#[test]
fn the_report_on_disk_is_that_of_check() {
    let folder = built("build-report");
    let check = run_in(&folder, &["check", &example(EXAMPLE), "--json"]);
    assert_eq!(
        fs::read(folder.join("out/board.json")).unwrap(),
        check.stdout
    );
}

#[test]
fn built_again_it_replaces_its_own_files_and_drops_old_ones() {
    let folder = empty("build-again");
    assert_code(&build(&folder, &["--r12"]), 0);
    assert!(folder.join("out/dxf-r12").is_dir());
    assert_code(&build(&folder, &[]), 0);
    assert!(!folder.join("out/dxf-r12").exists());
    assert_eq!(names(&folder), ["out"]);
    let fresh = built("build-again-fresh");
    same(&files(&folder.join("out")), &files(&fresh.join("out")));
}

#[test]
fn files_of_the_maker_stay() {
    let folder = empty("build-stay");
    assert_code(&build(&folder, &["--r12"]), 0);
    let mine = [
        "notes.txt",
        "svg/mine.svg",
        "photos/day/1.jpg",
        "dxf-r12/mine.dxf",
    ];
    for path in mine {
        let path = folder.join("out").join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, path.to_str().unwrap()).unwrap();
    }
    fs::create_dir(folder.join("out/empty")).unwrap();
    assert_code(&build(&folder, &[]), 0);
    for path in mine {
        let path = folder.join("out").join(path);
        assert_eq!(fs::read_to_string(&path).unwrap(), path.to_str().unwrap());
    }
    assert!(folder.join("out/empty").is_dir());
    assert_eq!(names(&folder.join("out/dxf-r12")), ["mine.dxf"]);
    assert_eq!(names(&folder), ["out"]);
}

#[test]
fn a_changed_file_is_not_replaced_unasked() {
    let folder = built("build-changed");
    let touched = folder.join("out/svg/rib-01.svg");
    fs::write(&touched, "mine now").unwrap();
    let before = files(&folder);
    let refused = build(&folder, &[]);
    assert_code(&refused, 3);
    let words = err(&refused);
    assert!(words.contains("svg/rib-01.svg") && words.contains("--force"));
    same(&before, &files(&folder));
    assert_eq!(names(&folder), ["out"]);
    assert_code(&build(&folder, &["--force"]), 0);
    assert_ne!(fs::read(&touched).unwrap(), b"mine now");
}

#[test]
fn a_folder_of_somebody_else_s_is_refused() {
    let folder = empty("build-foreign");
    fs::create_dir_all(folder.join("out/svg")).unwrap();
    fs::write(folder.join("out/letter.txt"), "dear").unwrap();
    fs::write(folder.join("out/svg/spine.svg"), "theirs").unwrap();
    let before = files(&folder);
    let refused = build(&folder, &[]);
    assert_code(&refused, 3);
    assert!(err(&refused).contains("did not write"), "{}", err(&refused));
    same(&before, &files(&folder));
    // Forced, it writes among them and replaces only what has the same name.
    assert_code(&build(&folder, &["--force"]), 0);
    assert_eq!(
        fs::read(folder.join("out/letter.txt")).unwrap(),
        b"dear".to_vec()
    );
    assert_ne!(
        fs::read(folder.join("out/svg/spine.svg")).unwrap(),
        b"theirs".to_vec()
    );
    assert_eq!(names(&folder), ["out"]);
}

/// A list that names files elsewhere is no mark of ours, and nothing elsewhere is touched.
#[test]
fn a_forged_list_does_not_reach_out_of_the_folder() {
    let folder = empty("build-forged");
    fs::create_dir(folder.join("out")).unwrap();
    fs::write(folder.join("victim"), "").unwrap();
    let empty_digest = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";
    let forged = serde_json::json!({
        "made_by": "boardwright", "version": "0", "board": "x",
        "files": [{ "path": "../victim", "what": "", "bytes": 0, "sha256": empty_digest }],
    });
    fs::write(folder.join("out/files.json"), forged.to_string()).unwrap();
    assert_code(&build(&folder, &[]), 3);
    assert_code(&build(&folder, &["--force"]), 0);
    assert!(folder.join("victim").exists());
}

#[test]
fn what_cannot_be_replaced_is_refused_even_when_forced() {
    let folder = empty("build-blocked");
    fs::create_dir_all(folder.join("out/index.html/deep")).unwrap();
    fs::write(folder.join("out/svg"), "a file named as a folder").unwrap();
    for more in [&[][..], &["--force"]] {
        let refused = build(&folder, more);
        assert_code(&refused, 3);
        assert!(err(&refused).contains("index.html") && err(&refused).contains("svg"));
    }
    assert_eq!(names(&folder), ["out"]);
    assert_eq!(names(&folder.join("out")), ["index.html", "svg"]);
}

#[test]
fn odd_places_are_refused_and_nothing_is_left() {
    let folder = empty("build-odd");
    fs::write(folder.join("file"), "f").unwrap();
    let file = example(EXAMPLE);
    for (place, words) in [
        ("file", "is a file"),
        ("file/below", "file/below"),
        (".", "the folder you are in"),
        ("..", "the folder you are in"),
    ] {
        let refused = run_in(&folder, &["build", &file, "-o", place, "--force"]);
        assert_code(&refused, 3);
        assert!(err(&refused).contains(words), "{}", err(&refused));
    }
    assert_eq!(names(&folder), ["file"]);
}

#[test]
fn folders_above_are_made_and_an_empty_one_is_filled() {
    let folder = empty("build-above");
    fs::create_dir(folder.join("empty")).unwrap();
    let file = example(EXAMPLE);
    for place in ["a/b/c", "empty", "trailing/"] {
        assert_code(&run_in(&folder, &["build", &file, "-o", place]), 0);
        assert!(folder.join(place).join("index.html").is_file());
    }
    assert_eq!(names(&folder), ["a", "empty", "trailing"]);
    assert_eq!(names(&folder.join("a/b")), ["c"]);
}

#[test]
fn a_design_with_faults_writes_nothing() {
    let folder = empty("build-faults");
    fs::write(folder.join("bad.toml"), "name = 3\n").unwrap();
    let told = run_in(&folder, &["build", "bad.toml", "-o", "deep/out", "--json"]);
    assert_code(&told, 1);
    let value: Value = serde_json::from_slice(&told.stdout).unwrap();
    assert!(!value["faults"].as_array().unwrap().is_empty());
    assert_eq!(names(&folder), ["bad.toml"]);
}

#[cfg(unix)]
#[test]
fn a_folder_without_leave_to_write_is_left_alone() {
    use std::os::unix::fs::PermissionsExt;
    let folder = empty("build-read-only");
    let locked = folder.join("locked");
    fs::create_dir(&locked).unwrap();
    fs::set_permissions(&locked, fs::Permissions::from_mode(0o555)).unwrap();
    // Root may write anywhere; then there is nothing to see here.
    let bound = fs::write(locked.join("probe"), "").is_err();
    if bound {
        let refused = run_in(
            &folder,
            &["build", &example(EXAMPLE), "-o", "locked/sub/out"],
        );
        assert_code(&refused, 3);
        assert!(err(&refused).contains("nothing was changed"));
        assert!(names(&locked).is_empty());
    }
    fs::set_permissions(&locked, fs::Permissions::from_mode(0o755)).unwrap();
}

/// The disk is full after the first few files: a limit on the size of files stands in for it.
#[cfg(unix)]
#[test]
fn a_write_that_fails_half_way_leaves_what_was_there() {
    use std::process::Command;
    let folder = built("build-full");
    fs::write(folder.join("out/notes.txt"), "mine").unwrap();
    let before = files(&folder);
    for (place, kept) in [("out", true), ("fresh/deep", false)] {
        let line = format!(
            "trap '' XFSZ; ulimit -f 64; exec {} build {} -o {place}",
            env!("CARGO_BIN_EXE_boardwright"),
            example(EXAMPLE)
        );
        let refused = Command::new("bash")
            .args(["-c", &line])
            .current_dir(&folder)
            .output()
            .unwrap();
        assert_code(&refused, 3);
        assert!(err(&refused).contains("nothing was changed"));
        assert_eq!(folder.join(place).exists(), kept);
        same(&before, &files(&folder));
        assert_eq!(names(&folder), ["out"]);
    }
}

#[cfg(unix)]
#[test]
fn links_are_carried_along_and_never_followed() {
    use std::os::unix::fs::symlink;
    let folder = built("build-links");
    fs::create_dir(folder.join("elsewhere")).unwrap();
    fs::write(folder.join("elsewhere/precious"), "p").unwrap();
    symlink("../elsewhere", folder.join("out/link")).unwrap();
    assert_code(&build(&folder, &[]), 0);
    assert_eq!(
        fs::read_link(folder.join("out/link")).unwrap(),
        Path::new("../elsewhere")
    );
    assert_eq!(
        fs::read(folder.join("elsewhere/precious")).unwrap(),
        b"p".to_vec()
    );
    // The folder itself through a link: the link stays, its goal is filled.
    symlink("out", folder.join("alias")).unwrap();
    let file = example(EXAMPLE);
    assert_code(&run_in(&folder, &["build", &file, "-o", "alias"]), 0);
    assert!(folder.join("alias").is_symlink());
    assert_eq!(names(&folder), ["alias", "elsewhere", "out"]);
}

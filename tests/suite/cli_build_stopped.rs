//! A build killed, interrupted, out of disk or overtaken: the folder and the maker's files in it.
//!
//! Most write a folder without making a board for it (`common/writer.rs`); signals and full disks are tried on the whole program too.
//! strace (from Linux's distributions) ends the program at a chosen call to the system, or lets a call fail or wait.
#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::{outside, program, writer};
use std::collections::BTreeMap;
use std::fs;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use program::{assert_code, empty, err, example, files, names};

const EXAMPLE: &str = "round-tail-6ft4.toml";

/// Calls that change the disk; a question mark lets strace pass over those a machine does not have.
const CHANGES: &str = "?mkdir,?mkdirat,?rename,?renameat,?renameat2,?link,?linkat,?symlink,?symlinkat,?unlink,\
                       ?unlinkat,?rmdir,?chmod,?fchmod,?fchmodat,?fdatasync";

/// Calls after which a folder or a file has another name: the program is ended at every one of them.
const NAMING: [&str; 5] = ["rename", "renameat", "renameat2", "link", "linkat"];

type Files = Vec<(String, Vec<u8>)>;

/// The folder written without `--r12`.
fn build(folder: &Path) -> Output {
    writer::writer(false).current_dir(folder).output().unwrap()
}

/// The whole program, which makes a board.
fn whole() -> Command {
    let mut command = program::program();
    command.args(["build", &example(EXAMPLE), "-o", "out"]);
    command
}

/// strace, if it is there and may do its work here.
fn strace() -> Option<PathBuf> {
    outside::use_program(|| {
        let strace = outside::on_path(&["strace"])?;
        let trial = Command::new(&strace)
            .args(["-o", "/dev/null", "true"])
            .output();
        match trial {
            Ok(trial) if trial.status.success() => Ok(strace),
            _ => Err("strace may not trace programs here".to_owned()),
        }
    })
}

/// The folder written with `--r12`, by a program whose calls strace changes by `rules`.
fn start(strace: &Path, folder: &Path, rules: &[String]) -> Child {
    trace(strace, folder, rules, &writer::writer(true))
}

/// `traced` with its calls changed by `rules`.
fn trace(strace: &Path, folder: &Path, rules: &[String], traced: &Command) -> Child {
    let mut command = Command::new(strace);
    // What is changed must be watched.
    let changed = rules.iter().filter_map(|rule| rule.split(':').next());
    let watched: Vec<&str> = std::iter::once(CHANGES).chain(changed).collect();
    command
        .args(["-f", "-o", "../calls"])
        .arg("-e")
        .arg(format!("trace={}", watched.join(",")));
    for rule in rules {
        command.arg("-e").arg(format!("inject={rule}"));
    }
    command
        .arg(traced.get_program())
        .args(traced.get_args())
        .envs(traced.get_envs().filter_map(|(k, v)| Some((k, v?))))
        .current_dir(folder)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap()
}

fn run_traced(strace: &Path, folder: &Path, rules: &[String]) -> Output {
    start(strace, folder, rules).wait_with_output().unwrap()
}

/// How often each call was made in the last traced build.
fn counts(folder: &Path) -> BTreeMap<String, usize> {
    let text = fs::read_to_string(folder.join("../calls")).unwrap();
    let mut counts = BTreeMap::new();
    for line in text.lines() {
        // The number of the process or thread stands before the call.
        let call = line
            .split_once(' ')
            .and_then(|(_, call)| call.trim_start().split_once('('));
        if let Some((call, _)) = call {
            *counts.entry(call.to_owned()).or_default() += 1;
        }
    }
    counts
}

/// A folder with a board built into `out` and files of the maker's there; the second is what is in it, and the third
/// what a build with `--r12` makes of it.
fn prepare(name: &str) -> (PathBuf, Files, Files) {
    let folder = empty(name).join("w");
    fs::create_dir(&folder).unwrap();
    let first = writer::writer(true).current_dir(&folder).output().unwrap();
    assert_code(&first, 0);
    let out = folder.join("out");
    for path in [
        "notes.txt",
        "svg/mine.svg",
        "photos/day/1.jpg",
        "photos/2.jpg",
    ] {
        let path = out.join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, path.to_str().unwrap()).unwrap();
    }
    symlink("../notes.txt", out.join("photos/link")).unwrap();
    let new = files(&out);
    assert_code(&build(&folder), 0);
    let old = files(&out);
    assert!(old.len() < new.len());
    (folder, old, new)
}

/// Whether two folders have the same content, without a screenful of it where they differ.
fn same(a: &Files, b: &Files) -> bool {
    a == b
}

fn paths(files: &Files) -> Vec<&str> {
    files.iter().map(|f| f.0.as_str()).collect()
}

/// All of `count` calls, or a few: the first, one in the middle, the last.
fn choose(call: &str, count: usize) -> Vec<usize> {
    if NAMING.contains(&call) {
        return (1..=count).collect();
    }
    let mut chosen = vec![1, count / 2, count];
    chosen.retain(|n| (1..=count).contains(n));
    chosen.sort_unstable();
    chosen.dedup();
    chosen
}

/// Kills a build at its steps. After each kill `out` must be old or new; if `gap` it must be missing after some. After
/// one more build it is old, and nothing is next to it.
fn kill_at_steps(name: &str, rules: &[&str], only: &[&str], gap: bool) {
    let Some(strace) = strace() else { return };
    let (folder, old, new) = prepare(name);
    let out = folder.join("out");
    let rules: Vec<String> = rules.iter().map(|rule| (*rule).to_owned()).collect();
    assert_code(&run_traced(&strace, &folder, &rules), 0);
    assert!(same(&files(&out), &new), "{:?}", paths(&files(&out)));
    assert_eq!(names(&folder), ["out"]);
    let counts = counts(&folder);
    assert_code(&build(&folder), 0);
    let mut gaps = 0;
    for (call, count) in counts {
        if !only.is_empty() && !only.contains(&call.as_str()) {
            continue;
        }
        if rules
            .iter()
            .any(|rule| rule.starts_with(&format!("{call}:")))
        {
            continue;
        }
        for number in choose(&call, count) {
            let place = format!("killed at {call} {number} of {count}");
            let mut with_kill = rules.clone();
            with_kill.push(format!("{call}:signal=SIGKILL:when={number}"));
            let killed = run_traced(&strace, &folder, &with_kill);
            assert!(!killed.status.success(), "{place}: it was not");
            let missing = !out.exists();
            gaps += usize::from(missing);
            if !missing {
                let found = files(&out);
                assert!(
                    same(&found, &old) || same(&found, &new),
                    "{place}: {:?}",
                    paths(&found)
                );
            }
            let next = build(&folder);
            assert_code(&next, 0);
            assert_eq!(
                err(&next).contains("the folder is back"),
                missing,
                "{place}: {}",
                err(&next)
            );
            let found = files(&out);
            assert!(
                same(&found, &old),
                "{place}, then built: {:?}",
                paths(&found)
            );
            assert_eq!(names(&folder), ["out"], "{place}");
            assert!(out.join("photos/link").is_symlink(), "{place}");
        }
    }
    assert_eq!(gaps > 0, gap, "the folder was missing after {gaps} kills");
}

#[test]
fn killed_at_any_step_the_folder_stands_with_the_makers_files() {
    kill_at_steps("stopped-killed", &[], &[], false);
}

/// A disk without an exchange and without hard links: renames, and copies.
#[test]
fn killed_between_renames_the_folder_comes_back() {
    let poor = ["renameat2:error=EINVAL", "linkat:error=EPERM"];
    kill_at_steps("stopped-poor-disk", &poor, &["rename", "unlink"], true);
}

#[test]
fn a_step_that_fails_for_want_of_room_changes_nothing() {
    let Some(strace) = strace() else { return };
    let (folder, old, new) = prepare("stopped-no-room");
    let out = folder.join("out");
    assert_code(&run_traced(&strace, &folder, &[]), 0);
    let counts = counts(&folder);
    assert_code(&build(&folder), 0);
    let mut refused = 0;
    for (call, count) in counts {
        // Where something cannot be removed, it stays for the next build; see below.
        for number in choose(&call, count) {
            let place = format!("no room at {call} {number} of {count}");
            let rule = format!("{call}:error=ENOSPC:when={number}");
            let done = run_traced(&strace, &folder, &[rule]);
            let found = files(&out);
            if done.status.success() {
                assert!(same(&found, &new), "{place}: {:?}", paths(&found));
            } else {
                refused += 1;
                assert_code(&done, 3);
                assert!(
                    err(&done).contains("nothing was changed"),
                    "{place}: {}",
                    err(&done)
                );
                assert!(same(&found, &old), "{place}: {:?}", paths(&found));
                assert_eq!(names(&folder), ["out"], "{place}");
            }
            assert_code(&build(&folder), 0);
            assert!(same(&files(&out), &old), "{place}, then built");
            assert_eq!(names(&folder), ["out"], "{place}, then built");
        }
    }
    assert!(refused > 5, "only {refused} steps mattered");
}

/// From some write on the disk has no room, for names neither.
#[test]
fn a_disk_that_fills_up_while_writing_changes_nothing() {
    let Some(strace) = strace() else { return };
    let (folder, old, _) = prepare("stopped-full");
    let out = folder.join("out");
    // The first writes are to the terminal; one file is one write at least.
    for first in [3, 40, 120] {
        let place = format!("full at write {first}");
        let full: Vec<String> = ["write", "?writev", "?copy_file_range"]
            .map(|call| format!("{call}:error=ENOSPC:when={first}+"))
            .to_vec();
        let done = run_traced(&strace, &folder, &full);
        assert_code(&done, 3);
        assert!(same(&files(&out), &old), "{place}");
        assert_eq!(names(&folder), ["out"], "{place}");
        assert_code(&build(&folder), 0);
        assert!(same(&files(&out), &old), "{place}, then built");
    }
}

/// A disk of its own for a build with `--r12` over an older board: from one too small for another file to one with room for all. What is on
/// it afterwards is copied to where the test can read it.
#[test]
fn on_a_full_disk_the_old_board_or_the_new_one_stands() {
    let (folder, old, new) = prepare("stopped-small-disk");
    let script = "set -e; mkdir disk after; mount -t tmpfs -o size=$1k none disk; cp -a out disk; cd disk; shift; \
                  code=0; \"$@\" || code=$?; cp -a . ../after; exit $code";
    let writes = writer::writer(true);
    let run = |kilobytes: usize| {
        for name in ["disk", "after"] {
            let _ = fs::remove_dir_all(folder.join(name));
        }
        Command::new("unshare")
            .args(["--map-root-user", "--mount", "sh", "-c", script, "sh"])
            .arg(kilobytes.to_string())
            .arg(writes.get_program())
            .args(writes.get_args())
            .envs(writes.get_envs().filter_map(|(k, v)| Some((k, v?))))
            .current_dir(&folder)
            .output()
    };
    let may = Command::new("unshare")
        .args([
            "--map-root-user",
            "--mount",
            "mount",
            "-t",
            "tmpfs",
            "none",
            "/mnt",
        ])
        .output();
    if !may.is_ok_and(|trial| trial.status.success()) {
        outside::leave_out("this machine lets no disk be mounted");
        return;
    }
    // In pages, as a disk in memory counts; a folder's own are few.
    let size = |files: &Files| {
        files
            .iter()
            .map(|f| f.1.len().div_ceil(4096) * 4)
            .sum::<usize>()
    };
    let (least, most) = (size(&old), size(&old) + size(&new));
    let (mut refused, mut built) = (0, 0);
    for share in [5, 20, 50, 80, 95, 130] {
        let done = run(least + (most - least) * share / 100).unwrap();
        let after = folder.join("after");
        assert_eq!(names(&after), ["out"], "{share} %: {}", err(&done));
        let found = files(&after.join("out"));
        if done.status.success() {
            built += 1;
            assert!(same(&found, &new), "{share} %: {:?}", paths(&found));
        } else {
            refused += 1;
            assert_code(&done, 3);
            assert!(err(&done).contains("nothing was changed"), "{}", err(&done));
            assert!(same(&found, &old), "{share} %: {:?}", paths(&found));
        }
    }
    assert!(refused > 2 && built > 0, "{refused} refused, {built} built");
}

#[test]
fn a_signal_ends_a_build_and_leaves_nothing() {
    let Some(strace) = strace() else { return };
    let folder = empty("stopped-signal");
    assert_code(&whole().current_dir(&folder).output().unwrap(), 0);
    for name in ["notes.txt", "svg/mine.svg"] {
        fs::write(folder.join("out").join(name), name).unwrap();
    }
    let old = files(&folder.join("out"));
    let stop = |folder: &Path, rule: String| {
        let build = trace(&strace, folder, &[rule], &whole());
        build.wait_with_output().unwrap()
    };
    for (signal, code) in [("SIGINT", 130), ("SIGTERM", 143)] {
        for call in ["fdatasync:when=20", "linkat:when=2"] {
            let rule = call.replace(":when", &format!(":signal={signal}:when"));
            let stopped = stop(&folder, rule);
            assert_code(&stopped, code);
            assert!(
                err(&stopped).contains("nothing was changed"),
                "{}",
                err(&stopped)
            );
            assert!(same(&files(&folder.join("out")), &old));
            assert_eq!(names(&folder), ["out"]);
        }
    }
    // A folder that was missing, with one above it.
    let fresh = empty("stopped-signal-fresh").join("w");
    fs::create_dir(&fresh).unwrap();
    let stopped = stop(&fresh, "fdatasync:signal=SIGINT:when=20".to_owned());
    assert_code(&stopped, 130);
    assert!(names(&fresh).is_empty());
}

/// Waits until the folder aside is whole: the next step puts it in its place.
fn wait_for_board(folder: &Path) {
    let start = Instant::now();
    loop {
        let entries = fs::read_dir(folder).unwrap().flatten();
        if entries
            .into_iter()
            .any(|entry| entry.path().join("board").is_dir() && entry.file_name() != "out")
        {
            return;
        }
        assert!(
            start.elapsed() < Duration::from_secs(120),
            "no folder aside"
        );
        sleep(Duration::from_millis(5));
    }
}

/// Between the second names and the exchange a file appears, one is replaced, one is edited in place, and one of
/// boardwright's own is replaced.
#[test]
fn what_the_maker_saves_while_a_build_runs_is_kept() {
    let Some(strace) = strace() else { return };
    for (name, rules) in [
        ("stopped-late", &["renameat2:delay_enter=3s"][..]),
        (
            "stopped-late-copies",
            &[
                "renameat2:delay_enter=3s:error=EINVAL",
                "linkat:error=EPERM",
            ],
        ),
    ] {
        let (folder, _, new) = prepare(name);
        let out = folder.join("out");
        let rules: Vec<String> = rules.iter().map(|rule| (*rule).to_owned()).collect();
        let running = start(&strace, &folder, &rules);
        wait_for_board(&folder);
        fs::create_dir(out.join("later")).unwrap();
        fs::write(out.join("later/file"), "appeared").unwrap();
        fs::write(out.join("saved"), "replaced").unwrap();
        fs::rename(out.join("saved"), out.join("notes.txt")).unwrap();
        fs::write(out.join("photos/2.jpg"), "edited in place").unwrap();
        fs::write(out.join("svg/spine.svg"), "my spine").unwrap();
        let done = running.wait_with_output().unwrap();
        assert_code(&done, 0);
        for (path, text) in [
            ("later/file", "appeared"),
            ("notes.txt", "replaced"),
            ("photos/2.jpg", "edited in place"),
        ] {
            assert_eq!(fs::read_to_string(out.join(path)).unwrap(), text, "{name}");
        }
        // A new spine stands there; the maker's is kept and named, and again by the next build.
        let spine = |files: &Files| {
            files
                .iter()
                .find(|f| f.0 == "svg/spine.svg")
                .unwrap()
                .1
                .clone()
        };
        assert_eq!(spine(&files(&out)), spine(&new));
        for told in [done, build(&folder)] {
            let words = err(&told);
            assert!(
                words.contains("kept in") && words.contains("svg/spine.svg"),
                "{words}"
            );
        }
        let kept: Vec<Vec<u8>> = files(&folder)
            .into_iter()
            .filter(|f| f.0.starts_with(".out") && f.0.ends_with("svg/spine.svg"))
            .map(|f| f.1)
            .collect();
        assert_eq!(kept, [b"my spine".to_vec()]);
    }
}

#[test]
fn of_two_builds_into_a_new_folder_the_slower_names_the_other() {
    let Some(strace) = strace() else { return };
    let folder = empty("stopped-two").join("w");
    fs::create_dir(&folder).unwrap();
    let slow = start(
        &strace,
        &folder,
        &["rename:delay_enter=8s:when=2".to_owned()],
    );
    wait_for_board(&folder);
    assert_code(&build(&folder), 0);
    let slow = slow.wait_with_output().unwrap();
    assert_code(&slow, 3);
    assert!(
        err(&slow).contains("another build made out"),
        "{}",
        err(&slow)
    );
    assert!(!folder.join("out/dxf-r12").exists());
    assert_eq!(names(&folder), ["out"]);
}

/// Folders as versions before the mark left them.
#[test]
fn many_unmarked_leftovers_are_named_and_stop_nothing() {
    let folder = empty("stopped-many");
    for number in 1..=1001 {
        let path = folder.join(format!(".out.unfinished-{number}"));
        fs::create_dir(&path).unwrap();
        if number > 3 {
            fs::write(path.join("index.html"), "half").unwrap();
        }
    }
    let done = build(&folder);
    assert_code(&done, 0);
    assert!(
        err(&done).contains("and 997 more like it"),
        "{}",
        err(&done)
    );
    // Empty ones are gone, the others are as they were.
    assert_eq!(names(&folder).len(), 998 + 1);
}

/// A mark that boardwright did not write gives no leave to remove anything.
#[test]
fn a_folder_with_another_mark_is_left_alone() {
    let folder = empty("stopped-forged");
    let holder = folder.join(".out.unfinished-7");
    fs::create_dir_all(holder.join("part")).unwrap();
    fs::write(holder.join("part/mine"), "mine").unwrap();
    fs::write(holder.join("boardwright.txt"), "Made by").unwrap();
    let before = files(&holder);
    let done = build(&folder);
    assert_code(&done, 0);
    assert!(err(&done).contains(".out.unfinished-7"), "{}", err(&done));
    assert!(same(&before, &files(&holder)));
}

#[test]
fn a_link_that_leads_nowhere_is_named_with_a_remedy() {
    let folder = empty("stopped-dangling");
    symlink("nowhere", folder.join("out")).unwrap();
    let refused = build(&folder);
    assert_code(&refused, 3);
    let words = err(&refused);
    assert!(
        words.contains("out is a link to nowhere, which does not exist"),
        "{words}"
    );
    assert!(words.contains("make that folder"), "{words}");
    assert_eq!(names(&folder), ["out"]);
}

#[test]
fn permissions_of_the_folder_and_the_makers_folders_stay() {
    let folder = empty("stopped-modes");
    assert_code(&build(&folder), 0);
    let modes = [
        ("out", 0o700),
        ("out/secret", 0o750),
        ("out/secret/key", 0o600),
        ("out/locked", 0o555),
    ];
    fs::create_dir(folder.join("out/secret")).unwrap();
    fs::write(folder.join("out/secret/key"), "k").unwrap();
    fs::create_dir(folder.join("out/locked")).unwrap();
    fs::write(folder.join("out/locked/file"), "f").unwrap();
    for (path, mode) in modes {
        fs::set_permissions(folder.join(path), fs::Permissions::from_mode(mode)).unwrap();
    }
    assert_code(&build(&folder), 0);
    for (path, mode) in modes {
        let found = fs::metadata(folder.join(path))
            .unwrap()
            .permissions()
            .mode();
        assert_eq!(found & 0o777, mode, "{path}");
    }
    assert!(folder.join("out/locked/file").exists());
    assert_eq!(names(&folder), ["out"]);
    fs::set_permissions(folder.join("out/locked"), fs::Permissions::from_mode(0o755)).unwrap();
}

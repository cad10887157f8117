//! The list of a folder's files, which is also the mark that boardwright made them.

use std::fmt::Write;

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::OutFile;

/// Name of the manifest.
pub const MANIFEST: &str = "files.json";

/// What `made_by` says.
const MAKER: &str = "boardwright";

/// One listed file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ManifestEntry {
    /// Its path below the folder, with `/` between names.
    pub path: String,
    /// What it is.
    pub what: String,
    /// Its size.
    pub bytes: usize,
    /// SHA-256 of its content, in lower-case hexadecimal.
    pub sha256: String,
}

/// The list of a folder's files.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Manifest {
    /// The program.
    pub made_by: String,
    /// Its version.
    pub version: String,
    /// The board's name.
    pub board: String,
    /// Every file but the manifest itself.
    pub files: Vec<ManifestEntry>,
}

impl Manifest {
    /// The manifest of `files`.
    pub fn new(board: &str, files: &[OutFile]) -> Self {
        let entry = |file: &OutFile| ManifestEntry {
            path: file.path.clone(),
            what: file.what.clone(),
            bytes: file.bytes.len(),
            sha256: digest(&file.bytes),
        };
        Self {
            made_by: MAKER.into(),
            version: env!("CARGO_PKG_VERSION").into(),
            board: board.into(),
            files: files.iter().map(entry).collect(),
        }
    }

    /// The manifest as a file.
    pub fn file(&self) -> Result<OutFile, serde_json::Error> {
        Ok(OutFile {
            path: MANIFEST.into(),
            what: "the list of files".into(),
            bytes: format!("{}\n", serde_json::to_string_pretty(self)?).into_bytes(),
        })
    }

    /// Reads a manifest; nothing when it is not one of boardwright's or names a file outside its folder.
    pub fn parse(bytes: &[u8]) -> Option<Self> {
        let manifest: Self = serde_json::from_slice(bytes).ok()?;
        let sound = |entry: &ManifestEntry| {
            let mut names = entry.path.split('/');
            names.all(|name| !matches!(name, "" | "." | "..") && !name.contains(['\\', ':', '\0']))
        };
        (manifest.made_by == MAKER && manifest.files.iter().all(sound)).then_some(manifest)
    }
}

impl ManifestEntry {
    /// Whether `content` is what was written.
    pub fn matches(&self, content: &[u8]) -> bool {
        content.len() == self.bytes && digest(content) == self.sha256
    }
}

fn digest(bytes: &[u8]) -> String {
    let mut hex = String::with_capacity(64);
    for byte in Sha256::digest(bytes) {
        let _ = write!(hex, "{byte:02x}");
    }
    hex
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(path: &str) -> OutFile {
        OutFile {
            path: path.into(),
            what: "w".into(),
            bytes: b"abc".to_vec(),
        }
    }

    #[test]
    fn a_manifest_reads_back_and_knows_its_files() {
        let manifest = Manifest::new("Tern", &[file("svg/rib-01.svg")]);
        let bytes = manifest.file().map(|f| f.bytes).unwrap_or_default();
        assert_eq!(Manifest::parse(&bytes), Some(manifest.clone()));
        let entry = &manifest.files[0];
        // FIPS 180-2, appendix B.1.
        assert_eq!(
            entry.sha256,
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
        assert!(entry.matches(b"abc") && !entry.matches(b"abd"));
    }

    #[test]
    fn paths_that_leave_the_folder_are_no_manifest() {
        for path in ["../x", "/etc/x", "a//b", "a/./b", "a\\..\\b", "c:x", ""] {
            let manifest = Manifest::new("Tern", &[file(path)]);
            let bytes = manifest.file().map(|f| f.bytes).unwrap_or_default();
            assert_eq!(Manifest::parse(&bytes), None, "{path}");
        }
        assert_eq!(Manifest::parse(b"{}"), None);
    }
}

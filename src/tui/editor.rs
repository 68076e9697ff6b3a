//! Writing in the editor that somebody is used to.

use std::io::Write;
use std::process::Command;

/// Has these words changed in an editor, and gives what it left. The file they are in is nobody
/// else's to read, and it is gone afterwards.
pub fn write_in(editor: &str, words: &str) -> Result<String, String> {
    let failed = |error: std::io::Error| format!("The editor's file can't be used: {error}.");
    let mut file = tempfile::Builder::new().prefix("brimful-").suffix(".txt").tempfile().map_err(failed)?;
    file.write_all(words.as_bytes()).and_then(|()| file.flush()).map_err(failed)?;
    // As other programs do it: what is set may have words behind it, and the shell takes them apart.
    let call = format!("{editor} \"$1\"");
    let ended = Command::new("sh").args(["-c", &call, "sh"]).arg(file.path()).status();
    let ended = ended.map_err(|error| format!("The editor can't be started: {error}."))?;
    if !ended.success() {
        return Err(format!("\"{editor}\" ended without saying that all is well; the words are as they were."));
    }
    // By its path: some editors put a new file in place of the old one.
    let bytes = std::fs::read(file.path()).map_err(failed)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_editor_leaves_comes_back_and_the_file_goes() {
        let folder = tempfile::tempdir().unwrap();
        let told = folder.path().join("told");
        // It tells how it found the file, then puts another in its place.
        let script = format!(
            "w() {{ ls -l $2 > {0}; cat $2 >> {0}; echo $1 > {0}.new; mv {0}.new $2; }}; w more",
            told.display()
        );
        assert_eq!(write_in(&script, "two combs").unwrap(), "more\n");
        let told = std::fs::read_to_string(told).unwrap();
        let (listed, words) = told.split_once('\n').unwrap();
        assert!(listed.starts_with("-rw-------") && words == "two combs", "{told}");
        let path = listed.split(' ').next_back().unwrap();
        assert!(path.contains("brimful-") && !std::path::Path::new(path).exists(), "{path}");
    }

    #[test]
    fn an_editor_that_fails_changes_nothing() {
        assert!(write_in("false", "words").unwrap_err().starts_with("\"false\" ended without"));
        assert!(write_in("/no/such/editor", "words").is_err());
    }
}

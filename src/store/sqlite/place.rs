//! What kind of place a file lies in: write-ahead logging needs memory shared by all who have the
//! file open, which a network share can't give.

use std::path::Path;

/// File systems that live on another computer, by the name the system gives them.
const SHARES: &[&str] =
    &["nfs", "nfs4", "cifs", "smb3", "smbfs", "9p", "afs", "ceph", "fuse.sshfs", "fuse.rclone", "vboxsf"];

/// Whether the file lies on a network share, as far as the system tells.
pub fn is_on_a_share(path: &Path) -> bool {
    let absolute = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    // Only Linux has this list; elsewhere the README's advice has to do.
    let mounts = std::fs::read_to_string("/proc/self/mountinfo").unwrap_or_default();
    kind_of_place(&mounts, &absolute).is_some_and(|kind| SHARES.contains(&kind))
}

/// The kind of file system of the innermost mount that holds the path (proc(5), mountinfo).
fn kind_of_place<'m>(mounts: &'m str, path: &Path) -> Option<&'m str> {
    let mount = |line: &'m str| {
        let (before, after) = line.split_once(" - ")?;
        let point = before.split(' ').nth(4)?.replace("\\040", " ");
        let inside = path.starts_with(&point);
        inside.then(|| (point.len(), after.split(' ').next().unwrap_or_default()))
    };
    mounts.lines().filter_map(mount).max_by_key(|(length, _)| *length).map(|(_, kind)| kind)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_innermost_mount_counts() {
        let mounts = "22 1 8:1 / / rw - ext4 /dev/sda1 rw\n\
                      36 22 0:31 / /home/ann/the\\040share rw,relatime shared:1 - nfs4 server:/x rw\n\
                      37 22 0:32 / /tmp rw - tmpfs tmpfs rw\n";
        let kind = |path: &str| kind_of_place(mounts, Path::new(path));
        assert_eq!(kind("/home/ann/season.brimful"), Some("ext4"));
        assert_eq!(kind("/home/ann/the share/season.brimful"), Some("nfs4"));
        assert_eq!(kind("/tmp/x"), Some("tmpfs"));
        assert_eq!(kind_of_place("", Path::new("/tmp/x")), None);
    }

    #[test]
    fn a_local_folder_is_no_share() {
        let folder = tempfile::tempdir().unwrap();
        assert!(!is_on_a_share(folder.path()));
    }
}

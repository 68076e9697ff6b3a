//! Answers by hand-typed examples, and the laws that each answer holds.

use crate::reading::testing::read;

#[test]
fn dump() {
    let lines = std::fs::read_to_string("/tmp/c_lines.txt").unwrap();
    let mut out = String::new();
    for line in lines.lines() {
        for q in read(line).questions {
            out.push_str(&format!("{:6} {}   [{}]\n", q.about.word(), line, q.why));
            for c in q.choices {
                out.push_str(&format!("          {:40} <- {}\n", c.label, c.line.unwrap_or_default()));
            }
        }
    }
    std::fs::write("/tmp/c_dump.txt", out).unwrap();
}

//! Rows of cells as comma-separated values (RFC 4180): quotes where they are needed, lines ended by CR LF.

/// Writes rows; a cell that a spreadsheet would take for a formula is kept from being one by an apostrophe before it.
pub fn write<R, C>(rows: R) -> String
where
    R: IntoIterator<Item = C>,
    C: IntoIterator<Item = String>,
{
    let mut text = String::new();
    for row in rows {
        for (at, cell) in row.into_iter().enumerate() {
            if at > 0 {
                text.push(',');
            }
            text.push_str(&quoted(&cell));
        }
        text.push_str("\r\n");
    }
    text
}

fn quoted(cell: &str) -> String {
    let number = cell.parse::<f64>().is_ok();
    let formula = cell.starts_with(['=', '+', '-', '@', '\t']) && !number;
    let cell = if formula { format!("'{cell}") } else { cell.to_owned() };
    match cell.contains([',', '"', '\n', '\r', ';']) {
        true => format!("\"{}\"", cell.replace('"', "\"\"")),
        false => cell,
    }
}

#[cfg(test)]
mod tests {
    use super::write;

    #[test]
    fn cells_are_quoted_where_they_must_be() {
        let rows = [["3/4\"", "a, b"], ["-2.5", "=1+1"], ["two\nlines", ""]];
        let rows = rows.map(|row| row.map(str::to_owned));
        assert_eq!(write(rows), "\"3/4\"\"\",\"a, b\"\r\n-2.5,'=1+1\r\n\"two\nlines\",\r\n");
    }
}

//! Tables of plain text: columns as wide as their widest cell.

/// On which side the text of a column stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// A table.
#[derive(Clone, Debug)]
pub(super) struct Table {
    sides: Vec<Side>,
    rows: Vec<Vec<String>>,
    indent: usize,
}

impl Table {
    /// A table with a heading for each column.
    pub(super) fn new(columns: &[(&str, Side)]) -> Self {
        let heading = columns.iter().map(|(name, _)| (*name).to_owned()).collect();
        Self {
            sides: columns.iter().map(|(_, side)| *side).collect(),
            rows: vec![heading],
            indent: 2,
        }
    }

    /// The same with more room on the left.
    pub(super) fn indented(self, indent: usize) -> Self {
        Self { indent, ..self }
    }

    /// Adds a row.
    pub(super) fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        self.rows.push(cells.into_iter().collect());
    }

    /// The table as lines of text.
    pub(super) fn text(&self) -> String {
        let width = |column: usize| {
            let cells = self.rows.iter().filter_map(|row| row.get(column));
            cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
        };
        let widths: Vec<usize> = (0..self.sides.len()).map(width).collect();
        let mut text = String::new();
        for row in &self.rows {
            let mut line = " ".repeat(self.indent);
            for ((cell, side), &width) in row.iter().zip(&self.sides).zip(&widths) {
                let padded = match side {
                    Side::Left => format!("{cell:<width$}"),
                    Side::Right => format!("{cell:>width$}"),
                };
                line.push_str(&padded);
                line.push_str("  ");
            }
            text.push_str(line.trim_end());
            text.push('\n');
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_line_up_by_characters() {
        let mut table = Table::new(&[("name", Side::Left), ("µm", Side::Right)]);
        table.row(["fine".to_owned(), "0.5".to_owned()]);
        table.row(["very coarse".to_owned(), "120".to_owned()]);
        assert_eq!(
            table.text(),
            "  name          µm\n  fine         0.5\n  very coarse  120\n"
        );
    }
}

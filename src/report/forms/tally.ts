/** Boxes to cross off by hand when there is no screen: rows of ten, numbered at their end. */

/** Boxes drawn at most; a larger count is written as a number to continue on the back. */
const MOST = 300;

/** Rows of ten as text: `[ ] [ ] ... 10`. The last row may be short; above 300 the last line says how many are left. */
export function tallyRows(count: number): string[] {
  const drawn = Math.min(count, MOST);
  const rows = Array.from({ length: Math.ceil(drawn / 10) }, (_, row) => {
    const here = Math.min(10, drawn - row * 10);
    return `${Array.from({ length: here }, () => '[ ]').join(' ')}  ${row * 10 + here}`;
  });
  return count > MOST ? [...rows, `and ${count - MOST} more`] : rows;
}

/** The same as a picture, two rows of ten side by side. */
export function tallySvg(count: number): string {
  const drawn = Math.min(count, MOST);
  const [step, half] = [26, 340];
  const boxes = Array.from({ length: drawn }, (_, index) => {
    const row = Math.floor(index / 10);
    const x = (row % 2) * half + (index % 10) * step;
    const y = Math.floor(row / 2) * 30 + 4;
    const ends = index % 10 === 9 || index === drawn - 1;
    const number = ends ? `<text x="${x + step + 2}" y="${y + 15}">${index + 1}</text>` : '';
    return `<rect class="hollow" x="${x + 1}" y="${y}" width="20" height="20"/>${number}`;
  });
  const height = Math.ceil(Math.ceil(drawn / 10) / 2) * 30 + (count > MOST ? 22 : 2);
  const more = count > MOST ? `<text x="0" y="${height - 6}">and ${count - MOST} more</text>` : '';
  return `<svg viewBox="0 0 720 ${height}" role="img" aria-label="${count} boxes to cross off">${boxes.join('')}${more}</svg>`;
}

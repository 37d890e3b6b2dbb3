/** A reader of RFC 4180 written from the grammar of its section 2, apart from the writer: fields, quotes, CR LF. */
export function readCsv(text: string): string[][] {
  const records: string[][] = [];
  let record: string[] = [];
  let at = 0;
  while (at < text.length) {
    let field = '';
    if (text[at] === '"') {
      at += 1;
      for (;;) {
        if (at >= text.length) throw new Error('a quoted field is not closed');
        if (text[at] === '"' && text[at + 1] === '"') {
          field += '"';
          at += 2;
        } else if (text[at] === '"') {
          at += 1;
          break;
        } else field += text[at++];
      }
    } else {
      while (at < text.length && text[at] !== ',' && text[at] !== '\r') {
        if (text[at] === '"' || text[at] === '\n') throw new Error(`a bare ${JSON.stringify(text[at])} in a field`);
        field += text[at++];
      }
    }
    record.push(field);
    if (text[at] === ',') {
      at += 1;
      if (at === text.length) record.push('');
    } else if (text.startsWith('\r\n', at)) {
      at += 2;
      records.push(record);
      record = [];
    } else throw new Error(`a field is followed by ${JSON.stringify(text[at])}`);
  }
  return records;
}

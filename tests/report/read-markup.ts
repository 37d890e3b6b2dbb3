/** A strict reader of well-formed markup (elements, attributes, five entities): refuses what an XML parser would refuse. */
export interface MarkupElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: (MarkupElement | string)[];
}

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };

export function readMarkup(source: string): MarkupElement {
  const text = source.replace(/^<!DOCTYPE html>\s*/, '');
  const root: MarkupElement = { name: '', attributes: {}, children: [] };
  const open: MarkupElement[] = [root];
  const token = /<(\/?)([a-zA-Z][\w-]*)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>|([^<]+)/gy;
  let end = 0;
  for (let found = token.exec(text); found !== null; found = token.exec(text)) {
    end = token.lastIndex;
    const [, closing, name = '', attributes = '', empty, words] = found;
    const parent = open.at(-1)!;
    if (words !== undefined) parent.children.push(decoded(words));
    else if (closing === '/') {
      if (parent.name !== name) throw new Error(`</${name}> closes <${parent.name}>`);
      open.pop();
    } else {
      const element: MarkupElement = { name, attributes: attributesOf(attributes), children: [] };
      parent.children.push(element);
      if (empty !== '/') open.push(element);
    }
  }
  if (end !== text.length) throw new Error(`not well formed at: ${text.slice(end, end + 60)}`);
  if (open.length !== 1) throw new Error(`<${open.at(-1)!.name}> is not closed`);
  return root.children.find((child) => typeof child !== 'string') as MarkupElement;
}

function decoded(text: string): string {
  return text.replace(/&([^;\s]*);?/g, (whole, name: string) => {
    const sign = ENTITIES[name];
    if (sign === undefined || !whole.endsWith(';')) throw new Error(`unknown entity ${whole}`);
    return sign;
  });
}

function attributesOf(text: string): Record<string, string> {
  const found: Record<string, string> = {};
  for (const [, name = '', value = ''] of text.matchAll(/([\w:-]+)="([^"]*)"/g)) {
    if (name in found) throw new Error(`attribute ${name} twice`);
    found[name] = decoded(value);
  }
  return found;
}

/** All elements of a name, in order. */
export function elementsNamed(element: MarkupElement, name: string): MarkupElement[] {
  const here = element.name === name ? [element] : [];
  return [
    ...here,
    ...element.children.flatMap((child) => (typeof child === 'string' ? [] : elementsNamed(child, name))),
  ];
}

/** The text inside an element. */
export const textOf = (element: MarkupElement): string =>
  element.children.map((child) => (typeof child === 'string' ? child : textOf(child))).join('');

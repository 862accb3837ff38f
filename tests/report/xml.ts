// Reads the XML that the library writes, strictly: anything out of order throws. No namespaces, no DTD, no CDATA.

export interface Node {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly (Node | string)[];
}

const NAME = /^[A-Za-z][\w-]*$/;
const ENTITIES: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"' };

/** The root element of a document. */
export function parseXml(document: string): Node {
  const declaration = '<?xml version="1.0" encoding="UTF-8"?>';
  if (!document.startsWith(declaration)) throw new Error('no XML declaration');
  let rest = document.slice(declaration.length).trim();
  const root = readElement();
  if (rest !== '') throw new Error(`more after the root: ${rest.slice(0, 40)}`);
  return root;

  function take(pattern: RegExp): RegExpExecArray {
    const match = pattern.exec(rest);
    if (match === null) throw new Error(`no ${pattern} at: ${rest.slice(0, 60)}`);
    rest = rest.slice(match[0].length);
    return match;
  }

  function readElement(): Node {
    const [, name, given, empty] = take(/^<([^\s<>/]+)((?:\s+[^\s=<>]+="[^"<]*")*)(\/?)>/);
    if (!NAME.test(name)) throw new Error(`not a name: ${name}`);
    const attributes: Record<string, string> = {};
    for (const [, key, value] of given.matchAll(/\s+([^\s=<>]+)="([^"<]*)"/g)) {
      if (!NAME.test(key)) throw new Error(`not a name: ${key}`);
      if (key in attributes) throw new Error(`${key} twice in ${name}`);
      attributes[key] = readText(value);
    }
    const children: (Node | string)[] = [];
    if (empty === '/') return { name, attributes, children };
    for (;;) {
      const between = take(/^[^<]*/)[0];
      if (between.trim() !== '') children.push(readText(between));
      if (rest.startsWith('</')) break;
      children.push(readElement());
    }
    const [, end] = take(/^<\/([^\s<>]+)>/);
    if (end !== name) throw new Error(`<${name}> ended by </${end}>`);
    return { name, attributes, children };
  }
}

function readText(text: string): string {
  // XML 1.0, section 2.2: these characters and no others.
  if (/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/u.test(text))
    throw new Error('no XML character');
  if (/>/.test(text)) throw new Error('bare >');
  return text.replace(/&([^;]*;)?/g, (all) => {
    const character = ENTITIES[all.slice(1, -1)];
    if (character === undefined) throw new Error(`unknown entity ${all}`);
    return character;
  });
}

/** Every element in the body of a page, from the outside in. */
export function elementsIn(html: string): Node[] {
  const [, body] = /<body>([\s\S]*)<\/body>/.exec(html) ?? [];
  if (body === undefined) throw new Error('no body');
  const visit = (node: Node): Node[] => [
    node,
    ...node.children.flatMap((child) => (typeof child === 'string' ? [] : visit(child))),
  ];
  return visit(parseXml(`<?xml version="1.0" encoding="UTF-8"?><body>${body}</body>`));
}

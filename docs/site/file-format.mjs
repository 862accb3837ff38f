// @ts-check
// The format of a file as a page, from its JSON schema: a table for each object, in the order of the file.

/**
 * What is used of a JSON schema.
 * @typedef {object} Schema
 * @property {string} [type]
 * @property {string} [description]
 * @property {Record<string, Schema>} [properties]
 * @property {string[]} [required]
 * @property {Schema[]} [anyOf]
 * @property {Schema | Schema[]} [items]
 * @property {unknown[]} [enum]
 * @property {unknown} [const]
 * @property {string} [$ref]
 * @property {Record<string, Schema>} [definitions]
 * @property {number} [minimum]
 * @property {number} [exclusiveMinimum]
 * @property {number} [maximum]
 * @property {number} [exclusiveMaximum]
 * @property {string} [pattern]
 * @property {Schema} [additionalProperties]
 */

/** @param {Schema} schema */
const isUncertain = ({ type, properties = {} }) =>
  type === 'object' && Object.keys(properties).sort().join() === 'plusMinus,value';

/** @param {unknown} value */
const code = (value) => `\`${JSON.stringify(value)}\``;

/** @param {Schema} schema */
function range({ minimum, exclusiveMinimum, maximum, exclusiveMaximum }) {
  const low = exclusiveMinimum ?? minimum;
  const high = exclusiveMaximum ?? maximum;
  const above = low === undefined ? '' : ` ${exclusiveMinimum === undefined ? '≥' : '>'} ${low}`;
  const below = high === undefined ? '' : ` ${exclusiveMaximum === undefined ? '≤' : '<'} ${high}`;
  return `${above}${above && below ? ',' : ''}${below}`;
}

/**
 * The page of a file.
 * @param {Schema} whole
 * @param {{ name: string, title: string, start: string }} page
 */
export function fileFormat(whole, { name, title, start }) {
  /** @type {string[]} */
  const sections = [];
  const named = new Map();

  /** @param {Schema} schema @returns {Schema} */
  const resolved = (schema) =>
    schema.$ref ? (whole.definitions?.[schema.$ref.replace('#/definitions/', '')] ?? schema) : schema;

  /** What a field holds, in words. @param {Schema} schema @param {string} path @returns {string} */
  function holds(schema, path) {
    if (schema.$ref) {
      const key = schema.$ref.replace('#/definitions/', '');
      return `[${key}](#${section(key, resolved(schema))})`;
    }
    if (schema.anyOf) {
      const certain = schema.anyOf.filter((one) => !isUncertain(one));
      const words = [...new Set(certain.map((one) => holds(one, path)))].join(' or ');
      return certain.length < schema.anyOf.length ? `${words}, or with \`plusMinus\`` : words;
    }
    if (schema.const !== undefined) return code(schema.const);
    if (schema.enum) return schema.enum.map(code).join(', ');
    if (Array.isArray(schema.items)) return `[${schema.items.map((one) => holds(one, path)).join('; ')}]`;
    if (schema.type === 'array' && schema.items) return `list: ${holds(schema.items, `${path}[]`)}`;
    if (schema.type === 'array') return 'list';
    if (schema.properties) return `[object](#${section(path, schema)})`;
    if (schema.type === 'object') {
      const value = schema.additionalProperties;
      return value && typeof value === 'object' ? `object by name: ${holds(value, `${path}.*`)}` : 'object';
    }
    if (schema.type === 'string') return schema.pattern ? 'text of a fixed form' : 'text';
    if (schema.type === 'boolean') return '`true` or `false`';
    return `${schema.type ?? 'any'}${range(schema)}`;
  }

  /** The section of an object, written once; its anchor. @param {string} path @param {Schema} schema @returns {string} */
  function section(path, schema) {
    const anchor = path
      .replaceAll(/[^A-Za-z0-9]+/g, '-')
      .replace(/-$/, '')
      .toLowerCase();
    if (named.has(anchor)) return anchor;
    named.set(anchor, path);
    const place = sections.push('') - 1;
    const { properties = {}, required = [], description } = schema;
    const rows = Object.entries(properties).map(([field, inner]) => {
      const needed = required.includes(field) ? ', required' : '';
      const words = (inner.description ?? resolved(inner).description ?? '').replaceAll('|', '\\|');
      return `| \`${field}\` | ${holds(inner, `${path}.${field}`)}${needed} | ${words.replaceAll('<', '&lt;')} |`;
    });
    sections[place] = [
      `## \`${path}\` {#${anchor}}`,
      ...(description ? [description.replaceAll('<', '&lt;')] : []),
      ['| field | holds | meaning |', '| --- | --- | --- |', ...rows].join('\n'),
    ].join('\n\n');
    return anchor;
  }

  const first = whole.properties ? [whole] : (whole.anyOf ?? []);
  for (const schema of first) {
    if (schema.$ref) holds(schema, '');
    else section(name, resolved(schema));
  }
  const uncertain = JSON.stringify(whole).includes('"plusMinus"')
    ? '\n\nA number *with `plusMinus`* may be written `{ "value": 300, "plusMinus": 20 }`, where `plusMinus` is half of its 95 % interval.'
    : '';
  return `# ${title}\n\n${start} \`jounce schema ${name}\` prints the JSON schema from which this page is made.${uncertain}\n\n${sections.join('\n\n')}\n`;
}

// The built site as files: what a server answers, and where its links lead.

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import type { RequestListener } from 'node:http';
import { extname, join, relative } from 'node:path';

const TYPES: Record<string, string> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.json': 'application/json',
};

/** Answers from a folder what lies under `base`, and nothing else. */
export function served(folder: string, base: string): RequestListener {
  return ({ url = '' }, response) => {
    const { pathname } = new URL(url, 'http://localhost');
    const inside = pathname.startsWith(base) ? decodeURIComponent(pathname.slice(base.length)) : null;
    const path =
      inside === null
        ? ''
        : join(folder, inside.endsWith('/') || inside === '' ? `${inside}index.html` : inside);
    if (path === '' || !existsSync(path)) {
      response.statusCode = 404;
      response.end();
      return;
    }
    response.setHeader('content-type', TYPES[extname(path)] ?? 'application/octet-stream');
    response.end(readFileSync(path));
  };
}

/** Every page of a folder, by its path in it. */
export function pagesOf(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.html'))
    .sort();
}

/** Links of the pages to places inside that are not there: files, and anchors of pages. */
export function brokenLinks(folder: string, base: string): { links: number; broken: string[] } {
  const pages = pagesOf(folder);
  const texts = new Map(pages.map((page) => [page, readFileSync(join(folder, page), 'utf8')]));
  const anchors = new Map(
    [...texts].map(([page, text]) => [
      page,
      new Set([...text.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id)),
    ]),
  );
  const broken: string[] = [];
  let links = 0;
  for (const [page, text] of texts) {
    const found = new Set(
      [...text.matchAll(/ (?:href|src)="([^"]*)"/g)].map(([, to]) => to.replaceAll('&amp;', '&')),
    );
    for (const to of found) {
      const url = new URL(to, `http://site${base}${page}`);
      if (url.host !== 'site') continue;
      links += 1;
      const place = decodeURIComponent(url.pathname);
      const file = place.startsWith(base) ? relative('/', place.replace(base, '/')) : '..';
      const target = file === '' || place.endsWith('/') ? join(file, 'index.html') : file;
      const anchor = decodeURIComponent(url.hash.slice(1));
      const known = anchors.get(target);
      if (!existsSync(join(folder, target)) || target.startsWith('..')) broken.push(`${page} -> ${to}`);
      else if (anchor !== '' && known !== undefined && !known.has(anchor)) broken.push(`${page} -> ${to}`);
    }
  }
  return { links, broken };
}

import { describe, expect, it } from 'vitest';
import { paintFirst } from '@/scripts/serve/paint-first';

const page = (body: string, type = 'text/html; charset=utf-8') => ({
  status: 200,
  headers: { 'content-type': type },
  body: Buffer.from(body),
});
const HEAD =
  '<head><link rel="preload" as="script" fetchPriority="low" href="/_next/static/chunks/c.js"/>' +
  '<link rel="stylesheet" href="/_next/static/chunks/a.css"/>' +
  '<script src="/_next/static/chunks/a.js" async=""></script></head>';
const LATER =
  '<script>self.__next_f.push([1,"$& of all"])</script><script src="/_next/static/chunks/b.js" id="_R_" async=""></script>';

describe('painting a page before its scripts', () => {
  it('hands all early scripts, in their order, to the one that asks for them after the picture', () => {
    const html = paintFirst(page(`<html>${HEAD}<body>text${LATER}</body></html>`)).body.toString();
    expect(html).toBe(
      '<html><head><link rel="stylesheet" href="/_next/static/chunks/a.css"/>' +
        '<script src="/start.js" async="" data-scripts="/_next/static/chunks/a.js /_next/static/chunks/b.js"></script>' +
        '</head><body>text<script>self.__next_f.push([1,"$& of all"])</script></body></html>',
    );
  });

  it('leaves what is no page, and a page without scripts, as it was', () => {
    const answer = page(HEAD, 'text/x-component');
    expect(paintFirst(answer)).toBe(answer);
    const plain = page('<html><head></head><body>text</body></html>');
    expect(paintFirst(plain)).toBe(plain);
  });
});

import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { contentSecurityPolicy } from '@/scripts/serve/security-headers';

const sourceOf = (code: string) => `'sha256-${createHash('sha256').update(code).digest('base64')}'`;
const policyFor = (...scripts: string[]) =>
  contentSecurityPolicy(`<p>text</p>${scripts.map((code) => `<script>${code}</script>`).join('')}`);

describe('the policy of a page', () => {
  const handOver = 'self.__next_f.push([1,"text with \\u003cb\\u003e and \\"quotes\\""])';

  it('allows the framework’s hand-overs of data, each by its hash', () => {
    const start = '(self.__next_f=self.__next_f||[]).push([0])';
    const policy = policyFor(start, handOver);
    for (const code of [start, handOver]) expect(policy).toContain(sourceOf(code));
  });

  it.each([
    'alert(1)',
    'self.__next_f.push([1,""]);alert(1)',
    'self.__next_f.push(alert(1))',
    '(self.__next_f=self.__next_f||[]).push([0]);fetch("/x")',
    'self.__next_f.push([1,""].concat(document.cookie))',
  ])('gives no hash to a script that could compute: %s', (code) => {
    const policy = policyFor(handOver, code);
    expect(policy).not.toContain(sourceOf(code));
    expect(policy).toContain(sourceOf(handOver));
  });

  it('has no hash to give to a page without scripts, and never allows inline code as such', () => {
    expect(policyFor()).toMatch(/script-src 'self';/);
    expect(policyFor(handOver)).not.toContain('unsafe');
  });
});

import type { Page } from 'playwright-core';

/** Has the whole page laid out at once: what is laid out only when it is come near moves while axe measures distances. */
export async function layOutAll(page: Page): Promise<void> {
  await page.evaluate(() => {
    document.styleSheets[0]?.insertRule('section { content-visibility: visible !important; }');
  });
}

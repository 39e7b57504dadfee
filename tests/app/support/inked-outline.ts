import type { Page } from 'playwright-core';

/** Grey level (0–255) up to which a pixel of a light page counts as ink. */
const DARKEST = 90;

/**
 * How much of a place's outline is drawn in ink on the map that is seen, 0–1: of 200 points along its path in the
 * server's picture those that have a dark pixel at most one pixel away.
 */
export async function inkedOutline(page: Page, place: string): Promise<number> {
  const stage = page.locator('.map-stage');
  const box = (await stage.boundingBox())!;
  const picture = await page.screenshot({ clip: box });
  return page.evaluate(
    async ({ base64, key, darkest }) => {
      const path = document.querySelector<SVGPathElement>(`svg.map [data-place="${key}"]`)!;
      const bytes = Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
      const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
      const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
      context.drawImage(bitmap, 0, 0);
      const { left, top } = document.querySelector('.map-stage')!.getBoundingClientRect();
      const matrix = path.getScreenCTM()!;
      const points = Array.from({ length: 200 }, (_, i) => {
        const point = path.getPointAtLength((i / 200) * path.getTotalLength()).matrixTransform(matrix);
        return [Math.round(point.x - left), Math.round(point.y - top)] as const;
      });
      const inked = points.filter(([x, y]) => {
        const { data } = context.getImageData(x - 1, y - 1, 3, 3);
        const greys = Array.from({ length: 9 }, (_, i) => {
          const [red, green, blue] = data.slice(4 * i, 4 * i + 3);
          return 0.3 * red! + 0.59 * green! + 0.11 * blue!;
        });
        return Math.min(...greys) <= darkest;
      });
      return inked.length / points.length;
    },
    { base64: picture.toString('base64'), key: place, darkest: DARKEST },
  );
}

import type { Page } from 'playwright-core';

/**
 * How far two pictures of one size differ when both are averaged over blocks of 16 × 16 pixels, so that a texture that
 * is shifted by a pixel does not count: mean and largest difference in grey levels of 0–255.
 */
export function blockDifference(page: Page, a: Buffer, b: Buffer): Promise<[number, number]> {
  return page.evaluate(
    async (pictures) => {
      const greys = await Promise.all(
        pictures.map(async (base64) => {
          const bytes = Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
          const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
          const [width, height] = [Math.ceil(bitmap.width / 16), Math.ceil(bitmap.height / 16)];
          const canvas = new OffscreenCanvas(width * 16, height * 16);
          const context = canvas.getContext('2d')!;
          context.drawImage(bitmap, 0, 0);
          const { data } = context.getImageData(0, 0, width * 16, height * 16);
          const sums = new Float64Array(width * height);
          for (let i = 0; i < data.length; i += 4) {
            const [x, y] = [(i / 4) % (width * 16), Math.floor(i / 4 / (width * 16))];
            const block = Math.floor(y / 16) * width + Math.floor(x / 16);
            sums[block]! += (0.3 * data[i]! + 0.59 * data[i + 1]! + 0.11 * data[i + 2]!) / 256;
          }
          return sums;
        }),
      );
      const differences = [...greys[0]!].map((grey, i) => Math.abs(grey - greys[1]![i]!));
      const mean = differences.reduce((sum, value) => sum + value, 0) / differences.length;
      return [mean, Math.max(...differences)] as [number, number];
    },
    [a.toString('base64'), b.toString('base64')],
  );
}

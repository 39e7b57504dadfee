import { FAINT, HATCH, TILE } from '@/lib/figures/patterns';

/** Side of a drawn tile in device pixels. */
const SIDE = 4 * TILE;

/** The picture's two textures as images for the live map; what is not dot or line stays clear. */
export function dotTile(colour: string): ImageData {
  return draw((context) => {
    context.fillStyle = colour;
    context.beginPath();
    context.arc(TILE / 2, TILE / 2, 2.2, 0, 2 * Math.PI);
    context.fill();
  });
}

export function hatchTile(colour: string): ImageData {
  return draw((context) => {
    context.strokeStyle = colour;
    context.lineWidth = 1.7;
    context.stroke(new Path2D(HATCH));
  });
}

/** Lines of bare paper, which make the ink below lighter. */
export function faintTile(colour: string): ImageData {
  return draw((context) => {
    context.strokeStyle = colour;
    context.lineWidth = FAINT.width;
    context.stroke(new Path2D(FAINT.d));
  });
}

/**
 * Device pixels of a tile for each CSS pixel, where the picture is shown at `scale` CSS pixels a unit. On small screens
 * a tile does not shrink further, since a texture of three pixels is a grey.
 */
export function tileRatio(scale: number): number {
  return SIDE / ((TILE / 2) * Math.max(scale, 0.75));
}

function draw(paint: (context: CanvasRenderingContext2D) => void): ImageData {
  const canvas = Object.assign(document.createElement('canvas'), { width: SIDE, height: SIDE });
  const context = canvas.getContext('2d')!;
  context.scale(SIDE / TILE, SIDE / TILE);
  paint(context);
  return context.getImageData(0, 0, SIDE, SIDE);
}

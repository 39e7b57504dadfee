'use client';

import { useEffect, useId, useRef, useState } from 'react';
import type { MapFrame } from '../view/map-frames';
import type { View } from '../view/view';
import type { MapTexts } from './map-texts';

/** How long a season stands while they are played, and how long a choice rests before the page follows it. */
const STEP_MS = 900;
const REST_MS = 150;

/**
 * Steps the map through its seasons. While it is moved only the map changes; where it rests, the page follows. It plays
 * only over a live map, and stands still for readers who want no motion.
 */
export function SeasonSlider({
  texts,
  frames,
  shown,
  step,
  open,
}: {
  texts: MapTexts;
  frames: readonly MapFrame[];
  /** The view that the page shows. */
  shown: View;
  /** Shows a frame on the live map; null where there is none. */
  step: ((frame: MapFrame) => void) | null;
  /** Has the page follow. */
  open: (window: View['window']) => void;
}) {
  const id = useId();
  const here = indexOf(frames, shown.window);
  const [at, setAt] = useState(here);
  const [isPlaying, setPlaying] = useState(false);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const show = useRef(step);
  const follow = useRef(open);
  show.current = step;
  follow.current = open;

  // The page has followed, or shows something else altogether.
  useEffect(() => {
    clearTimeout(timer.current);
    setAt(here);
    setPlaying(false);
    return () => clearTimeout(timer.current);
  }, [here]);

  const move = (next: number) => {
    setAt(next);
    show.current?.(frames[next]!);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => follow.current(periodOf(frames[next]!)), REST_MS);
  };

  useEffect(() => {
    if (!isPlaying) return;
    const still = matchMedia('(prefers-reduced-motion: reduce)');
    const end = (last: number) => {
      setPlaying(false);
      follow.current(periodOf(frames[last]!));
    };
    if (still.matches || at >= frames.length - 1) {
      end(at);
      return;
    }
    const next = setTimeout(() => {
      show.current?.(frames[at + 1]!);
      setAt(at + 1);
    }, STEP_MS);
    return () => clearTimeout(next);
  }, [isPlaying, at, frames]);

  if (frames.length < 2) return null;
  const frame = frames[at] ?? frames.at(-1)!;
  const upTo = shown.layer === 'found' || shown.layer === 'spread';
  const label = upTo ? `${texts.slider.upTo} ${frame.label.slice(-4)}` : frame.label;
  const said = frame.unfinished ? `${label}*, ${texts.slider.unfinished}` : label;
  const play = () => {
    clearTimeout(timer.current);
    if (isPlaying) {
      setPlaying(false);
      follow.current(periodOf(frame));
      return;
    }
    if (at >= frames.length - 1) {
      setAt(0);
      show.current?.(frames[0]!);
    }
    setPlaying(true);
  };
  return (
    <div className="season-slider">
      {step ? (
        <button
          type="button"
          aria-label={isPlaying ? texts.slider.stop : texts.slider.play}
          title={isPlaying ? texts.slider.stop : texts.slider.play}
          onClick={play}
        >
          {isPlaying ? '■' : '▶'}
        </button>
      ) : null}
      <label htmlFor={id} className="unseen">
        {texts.slider.label}
      </label>
      <input
        id={id}
        type="range"
        min={0}
        max={frames.length - 1}
        step={1}
        value={at}
        aria-valuetext={said}
        onChange={(event) => {
          setPlaying(false);
          move(Number(event.currentTarget.value));
        }}
      />
      <output htmlFor={id} data-unfinished={frame.unfinished || undefined}>
        {said}
      </output>
    </div>
  );
}

/** The frame of the seasons that are shown; of several seasons that with the last of them. */
function indexOf(frames: readonly MapFrame[], window: View['window']): number {
  const last = frames.length - 1;
  if (window === 'all') return last;
  const at = frames.findIndex((frame) => periodOf(frame).last >= window.last);
  return at < 0 ? last : at;
}

function periodOf({ key }: MapFrame): { first: number; last: number } {
  const [first = 0, last = first] = key.split('-').map(Number);
  return { first, last };
}

import type { Attachment } from 'svelte/attachments';
import type { DrawingDesk } from './drawing-desk.svelte.ts';
import { paint, type Inks, type Painting } from './painter.ts';

/** Paints the drawing into a canvas, and again in the same frame as anything that it shows changes. */
export function paintInto(desk: DrawingDesk): Attachment<HTMLCanvasElement> {
  return (canvas) => {
    const context = canvas.getContext('2d', { alpha: false });
    if (context === null) return undefined;
    let inks = $state.raw(inksOf(canvas));
    let frame = 0;
    $effect(() => {
      const painting: Painting = { ...shown(desk), inks };
      const { strokes } = desk;
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(() => {
        sized(canvas, painting.pane);
        paint(context, painting, strokes);
      });
    });
    const forget = onTheme(() => (inks = inksOf(canvas)));
    return () => {
      cancelAnimationFrame(frame);
      forget();
    };
  };
}

function shown({ graph, strong, pointed, signs, scene }: DrawingDesk): Omit<Painting, 'inks'> {
  const { placed, viewport, pane, mounted } = scene;
  return { graph, placed, viewport, pane, mounted, strong, pointed, signs };
}

function sized(canvas: HTMLCanvasElement, { width, height }: Painting['pane']): void {
  const scale = window.devicePixelRatio;
  const [wide, high] = [Math.round(width * scale), Math.round(height * scale)];
  if (canvas.width !== wide) canvas.width = wide;
  if (canvas.height !== high) canvas.height = high;
}

/** The tokens' colours in this theme. A canvas cannot read tokens, so each is worn once and read off. */
function inksOf(canvas: HTMLCanvasElement): Inks {
  const worn = (token: string): string => {
    canvas.style.color = `var(${token})`;
    return getComputedStyle(canvas).color;
  };
  const inks = {
    ground: worn('--ground'),
    raised: worn('--ground-raised'),
    ink: worn('--ink'),
    soft: worn('--ink-faint'),
    rule: worn('--rule-strong'),
    copper: worn('--copper'),
    font: getComputedStyle(canvas).fontFamily,
    words: getComputedStyle(document.body).fontFamily,
  };
  canvas.style.removeProperty('color');
  return inks;
}

/** Calls back when the theme changes, by the machine's setting or the app's own. Returns the undoing. */
function onTheme(changed: () => void): () => void {
  const machine = matchMedia('(prefers-color-scheme: dark)');
  machine.addEventListener('change', changed);
  const app = new MutationObserver(changed);
  app.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
  return () => {
    machine.removeEventListener('change', changed);
    app.disconnect();
  };
}

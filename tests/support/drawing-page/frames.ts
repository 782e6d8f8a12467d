/** What moves the drawing for a measurement; each is called once a frame. */
const MOVES = {
  /** Nothing: what a frame takes on this machine as it is. */
  rest: () => undefined,
  pan: (pane: Element, frame: number) => {
    const at = 300 + 260 * Math.sin(frame / 20);
    const where = { clientX: 400 + at / 2, clientY: at, bubbles: true, view: window };
    if (frame === 0) pane.dispatchEvent(new MouseEvent('mousedown', where));
    else window.dispatchEvent(new MouseEvent('mousemove', where));
  },
  zoom: (pane: Element, frame: number) => {
    const deltaY = Math.floor(frame / 30) % 2 === 0 ? -16 : 16;
    pane.dispatchEvent(
      new WheelEvent('wheel', {
        deltaY,
        clientX: 500,
        clientY: 350,
        bubbles: true,
        cancelable: true,
        view: window,
      }),
    );
  },
};

/** Milliseconds from frame to frame while the drawing is moved so, and the script's own share of each. */
export async function framesOf(
  move: keyof typeof MOVES,
  count: number,
): Promise<{ readonly frames: readonly number[]; readonly work: readonly number[] }> {
  const pane = document.querySelector('.svelte-flow__pane');
  if (pane === null) throw new Error('there is no drawing');
  const frames: number[] = [];
  const work: number[] = [];
  const { port1, port2 } = new MessageChannel();
  let before = await nextFrame();
  for (let frame = 0; frame < count; frame += 1) {
    const start = performance.now();
    MOVES[move](pane, frame);
    // A message comes after this frame's scripts, styles, layout and paint.
    await new Promise((resolve) => {
      port1.onmessage = resolve;
      port2.postMessage(null);
    });
    work.push(performance.now() - start);
    const now = await nextFrame();
    frames.push(now - before);
    before = now;
  }
  window.dispatchEvent(new MouseEvent('mouseup', { bubbles: true, view: window }));
  return { frames, work };
}

function nextFrame(): Promise<number> {
  return new Promise((resolve) => requestAnimationFrame(resolve));
}

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

/** Milliseconds from frame to frame while the drawing is moved so. */
export async function framesOf(move: keyof typeof MOVES, count: number): Promise<readonly number[]> {
  const pane = document.querySelector('.svelte-flow__pane');
  if (pane === null) throw new Error('there is no drawing');
  const frames: number[] = [];
  let before = await nextFrame();
  for (let frame = 0; frame < count; frame += 1) {
    MOVES[move](pane, frame);
    const now = await nextFrame();
    frames.push(now - before);
    before = now;
  }
  window.dispatchEvent(new MouseEvent('mouseup', { bubbles: true, view: window }));
  return frames;
}

function nextFrame(): Promise<number> {
  return new Promise((resolve) => requestAnimationFrame(resolve));
}

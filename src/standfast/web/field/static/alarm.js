// Times that are waited for, by item: they go on while other pages are looked at, and call by sound, by shaking, by text.
const running = new Map();
let sound = null;
let draw = () => {};

export const drawWith = (again) => (draw = again);

/** Begin to wait; to be called from a tap, so that the browser lets it sound. */
export function start(id, seconds) {
  sound ??= new AudioContext();
  sound.resume();
  stop(id);
  const began = performance.now();
  const one = { began, seconds, over: false };
  one.every = setInterval(draw, 500);
  one.end = setTimeout(() => ring(one), seconds * 1000);
  running.set(id, one);
  draw();
}

function ring(one) {
  one.over = true;
  navigator.vibrate?.([600, 200, 600, 200, 600]);
  for (let time = 0; time < 3; time += 0.6) tone(sound.currentTime + time);
  draw();
}

function tone(at) {
  const source = sound.createOscillator();
  const loud = sound.createGain();
  source.type = "square";
  source.frequency.value = 1200;
  loud.gain.setValueAtTime(0.4, at);
  source.connect(loud).connect(sound.destination);
  source.start(at);
  source.stop(at + 0.35);
}

/** How long has been waited, in milliseconds, and whether it is over; null where nobody waits. */
export function waited(id) {
  const one = running.get(id);
  return one ? { ms: Math.floor(performance.now() - one.began), over: one.over, seconds: one.seconds } : null;
}

/** End a wait. */
export function stop(id) {
  const one = running.get(id);
  if (!one) return;
  clearInterval(one.every);
  clearTimeout(one.end);
  running.delete(id);
}

/** Items whose time is over and that nobody judged yet. */
export const calling = () => [...running].filter(([, one]) => one.over).map(([id]) => id);

/**
 * Prevents the screen from turning off while a burn is shown. Where the browser grants no wake lock (a page over plain
 * http by host name) a muted, looping, nearly invisible video does it: browsers leave the screen on while a large
 * enough video plays.
 */

/** Start; returns the function that stops. Does nothing where neither way exists. */
export function holdWakeLock(): () => void {
  return 'wakeLock' in navigator ? byWakeLock() : byVideo();
}

function byWakeLock(): () => void {
  let lock: WakeLockSentinel | undefined;
  let wanted = true;
  const take = () => {
    if (!wanted || document.hidden) return;
    navigator.wakeLock.request('screen').then(
      (taken) => {
        lock = taken;
        if (!wanted) void taken.release();
      },
      // Refused when the battery is low: the screen then follows the device's own rules.
      () => undefined,
    );
  };
  // The browser releases the lock whenever the page is hidden.
  document.addEventListener('visibilitychange', take);
  take();
  return () => {
    wanted = false;
    document.removeEventListener('visibilitychange', take);
    void lock?.release();
  };
}

function byVideo(): () => void {
  const canvas = document.createElement('canvas');
  const context = canvas.getContext('2d');
  if (!context || !('captureStream' in canvas)) return () => undefined;
  canvas.width = 16;
  canvas.height = 16;
  const video = document.createElement('video');
  video.className = 'awake';
  video.muted = true;
  video.loop = true;
  video.playsInline = true;
  video.setAttribute('aria-hidden', 'true');
  video.tabIndex = -1;
  video.srcObject = canvas.captureStream(1);
  document.body.append(video);
  let odd = false;
  const drawing = setInterval(() => {
    odd = !odd;
    context.fillStyle = odd ? '#000' : '#111';
    context.fillRect(0, 0, 16, 16);
  }, 1000);
  const play = () => void video.play().catch(() => undefined);
  addEventListener('pointerdown', play);
  play();
  return () => {
    clearInterval(drawing);
    removeEventListener('pointerdown', play);
    video.remove();
  };
}

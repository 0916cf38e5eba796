// Starts the program of the page. Written by `cargo xtask finish-dist`, which puts in the file names.

const PROGRAM = new URL('./WASM_NAME', import.meta.url);

// Fetched and compiled beside everything else. Where that fails, the script of the program tries again in ways of its own, or says why not.
const program = Promise.resolve(globalThis.WebAssembly?.compileStreaming?.(fetch(PROGRAM))).catch(() => undefined);

// Uncovers the notice of the page, which needs nothing of the program. The link shown is the one in the address bar: it may lack the change
// of the last moment, which is as well, since that change is the likeliest cause.
function giveNotice(why) {
  const notice = document.getElementById('crash');
  // What follows from the first error tells less than it does.
  if (!notice?.hidden) return;
  notice.hidden = false;
  document.getElementById('shell-wait')?.setAttribute('hidden', '');
  document.getElementById('crash-link')?.setAttribute('value', location.href);
  if (why) document.getElementById('crash-why')?.replaceChildren(`For a report: ${why}.`);
  const again = document.getElementById('crash-again');
  again?.removeAttribute('hidden');
  again?.addEventListener('click', () => location.reload());
}

// An error that has passed through the program leaves it half done, and it cannot go on.
function heed({ error, reason }) {
  const cause = error ?? reason;
  const place = /wasm-function\S*/.exec(cause?.stack);
  if (place || cause?.name === 'RuntimeError') giveNotice([cause.message, place?.[0]].filter(Boolean).join(' in '));
}
addEventListener('error', heed);
addEventListener('unhandledrejection', heed);

// The program shows its part of the page when the first answer stands, and removes the shell when all does. Whoever measures the page finds
// these moments under their names.
function noteWhen(name, isSo, place, what) {
  new MutationObserver((_, watch) => {
    if (!isSo()) return;
    performance.mark(name);
    watch.disconnect();
  }).observe(place, what);
}
const app = document.getElementById('app');
const shell = document.getElementById('shell');
noteWhen('answered', () => !app.hidden, app, { attributeFilter: ['hidden'] });
noteWhen('ready', () => !shell?.isConnected, document.body, { childList: true });

// The words of the shell are painted before the program takes the processor. A page in the background is not painted.
await new Promise((painted) => {
  requestAnimationFrame(() => setTimeout(painted));
  setTimeout(painted, 200);
});

try {
  // Imported here and not above, because a script that is missing must show the notice as well.
  const { default: init } = await import('./SCRIPT_NAME');
  await init({ module_or_path: (await program) ?? PROGRAM });
} catch (error) {
  console.error(error);
  giveNotice();
}

// The worker that keeps the page for days without signal. It works without the program, so that a broken build can be replaced.
if ('serviceWorker' in navigator) {
  const notice = document.getElementById('newer');
  let asked = false;
  const again = () => {
    // The program writes the last changes into the address when the page goes, which is too late for the address that is loaded again.
    window.dispatchEvent(new Event('pagehide'));
    location.reload();
  };
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    // Not on the first visit, when the worker takes the page it was fetched with.
    if (asked) again();
  });
  try {
    const registration = await navigator.serviceWorker.register('./sw.js', { updateViaCache: 'none' });
    // Newer is what waits behind another. On the first visit WebKit may say that the worker waits when it has taken the page already.
    const announce = () => {
      const { active, waiting } = registration;
      if (active && waiting && navigator.serviceWorker.controller) notice?.removeAttribute('hidden');
    };
    const watch = () => registration.installing?.addEventListener('statechange', announce);
    registration.addEventListener('updatefound', watch);
    // The browser looks for a newer worker by itself when the page is opened, and may have found one before this line.
    watch();
    announce();
    document.getElementById('newer-take')?.addEventListener('click', () => {
      asked = true;
      // In another tab it may have been taken already.
      if (registration.waiting) registration.waiting.postMessage('take over'); else again();
    });
    document.getElementById('newer-later')?.addEventListener('click', () => notice?.setAttribute('hidden', ''));
    // Somebody who keeps the page open for weeks is told as well.
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible') registration.update().catch(() => {});
    });
  } catch {
    // Pages that did not come by https have no worker; they work as before, with signal.
  }
}

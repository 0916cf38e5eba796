// Put first into the page where the browser has no log of its own: collects what no visit may leave behind.
{
  const heard = [];
  // Of what was asked for in vain there is no entry.
  const wanted = [];
  let seen = 0;
  const tell = (what) => heard.push(String(what));
  Object.defineProperty(window, 'takeHeard', { value: () => {
    const asked = performance.getEntriesByType('resource').map((entry) => entry.name).slice(seen);
    seen += asked.length;
    return [heard.splice(0), [...asked, ...wanted.splice(0)]];
  } });
  const { error } = console;
  console.error = (...all) => {
    tell(all.join(' '));
    error.apply(console, all);
  };
  const { fetch } = window;
  window.fetch = (what, ...more) => {
    wanted.push(new URL(what.url ?? what, document.baseURI).href);
    return fetch(what, ...more);
  };
  window.addEventListener('error', (event) => {
    const { target } = event;
    // What a script plays is no complaint of the browser.
    if (event.isTrusted) tell(event.message ?? `${target.src ?? target.href} did not load`);
  }, true);
  window.addEventListener('unhandledrejection', (event) => tell(`nobody caught ${event.reason}`));
  document.addEventListener('securitypolicyviolation', (event) => {
    tell(`${event.effectiveDirective} forbids ${event.blockedURI}`);
  });
  document.currentScript.remove();
}

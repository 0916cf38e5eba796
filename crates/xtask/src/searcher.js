// The program beside the page: a second copy that flies sweeps and searches. Written by `cargo xtask finish-dist`, which puts in the file name.
import init, { searcher_ask, searcher_step } from './SCRIPT_NAME';

// How long it flies before it looks whether something newer was asked.
const TURN_MS = 12;

let ready;
let isWorking = false;

addEventListener('message', async ({ data }) => {
  // First comes the compiled program, then questions.
  if (data instanceof WebAssembly.Module) {
    ready = init({ module_or_path: data });
    return;
  }
  await ready;
  searcher_ask(...data);
  if (!isWorking) work();
});

function work() {
  isWorking = true;
  const until = performance.now() + TURN_MS;
  let newest;
  while (performance.now() < until) {
    const news = searcher_step();
    if (news === undefined) {
      isWorking = false;
      break;
    }
    // How far it has come is told once a turn; what it brought is always told.
    newest = news;
    if (news[3] > 0) {
      postMessage(news);
      newest = undefined;
    }
  }
  if (newest) postMessage(newest);
  if (isWorking) setTimeout(work);
}

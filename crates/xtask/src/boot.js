// Starts the program of the page. Written by `cargo xtask finish-dist`, which puts in the file names.
try {
  // Imported here and not above, because a script that is missing must show the notice as well.
  const { default: init } = await import('./SCRIPT_NAME');
  await init({ module_or_path: new URL('./WASM_NAME', import.meta.url) });
} catch (error) {
  console.error(error);
  document.getElementById('shell-wait')?.setAttribute('hidden', '');
  document.getElementById('crash')?.removeAttribute('hidden');
  document.getElementById('crash-link')?.setAttribute('value', location.href);
  const again = document.getElementById('crash-again');
  again?.removeAttribute('hidden');
  again?.addEventListener('click', () => location.reload());
}

/** Stands in for what an editor gives the panel of figures: messages go to the page around it and come from there alone. */
Object.assign(window, {
  acquireVsCodeApi: () => ({
    postMessage: (message: unknown) => parent.postMessage(message, location.origin),
  }),
});

window.addEventListener(
  'message',
  (event) => {
    if (event.source !== parent || event.origin !== location.origin) event.stopImmediatePropagation();
  },
  { capture: true },
);

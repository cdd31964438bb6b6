'use strict';
// Everything of ours hangs on one name.
const twodip = { root: document.documentElement.dataset.root || '', ready: [] };

// What a person chose or kept, on this device only. A browser may forbid
// storage, or lose it: then the page works and forgets.
twodip.store = {
  key: name => 'twodip/' + (document.documentElement.dataset.wall || '') + '/' + name,
  get(name, otherwise) {
    try {
      const text = localStorage.getItem(this.key(name));
      return text === null ? otherwise : JSON.parse(text);
    } catch { return otherwise; }
  },
  // set says whether the device kept it.
  set(name, value) {
    try {
      localStorage.setItem(this.key(name), JSON.stringify(value));
      return true;
    } catch { return false; }
  },
};

// make makes an element: make('a', { href, class }, 'text', child).
twodip.make = (name, attributes = {}, ...children) => {
  const e = document.createElement(name);
  for (const [k, v] of Object.entries(attributes)) if (v !== undefined) e.setAttribute(k, v);
  e.append(...children);
  return e;
};
twodip.byId = id => document.getElementById(id);

// Over https the site stays when the network goes: see offline.js.
if (location.protocol === 'https:' && navigator.serviceWorker) navigator.serviceWorker.register(twodip.root + 'offline.js').catch(() => {});

document.addEventListener('DOMContentLoaded', () => {
  for (const start of twodip.ready) start();
});

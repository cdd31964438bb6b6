// What was just done is said at the foot of the window, with a way back.
twodip.say = (text, ...ways) => {
  twodip.byId('say').textContent = text;
  twodip.byId('say-ways').replaceChildren(...ways);
};
// undo makes the way back of something taken away; the focus goes on to where.
twodip.button = (text, act, attributes) => {
  const b = twodip.make('button', { type: 'button', ...attributes }, text);
  b.addEventListener('click', act);
  return b;
};
twodip.gone = (text, back, where) => {
  const undo = twodip.button('Undo', () => {
    back();
    twodip.say('It is back.');
    if (where) where().focus();
  });
  twodip.say(text, undo);
  return undo;
};

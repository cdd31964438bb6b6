// A photo looked at closely: as large as the picture that is kept, by wheel,
// by two fingers, by keys. Without a script its link opens the picture itself.
twodip.closer = link => {
  const make = twodip.make, img = make('img', { src: link.href, alt: link.querySelector('img')?.alt || '', draggable: 'false' });
  const box = make('dialog', { class: 'closer', 'aria-label': 'A photo, closer. Plus and minus size it, arrow keys move it, Escape closes it.', tabindex: '-1' }, img);
  const fingers = new Map();
  let s = 1, x = 0, y = 0, moved = false;
  const put = () => {
    x = Math.max(-innerWidth * (s - 1) / 2, Math.min(innerWidth * (s - 1) / 2, x));
    y = Math.max(-innerHeight * (s - 1) / 2, Math.min(innerHeight * (s - 1) / 2, y));
    img.style.transform = 'translate(' + x + 'px,' + y + 'px) scale(' + s + ')';
  };
  // size keeps the point under the fingers where it is.
  const size = (by, at = { x: innerWidth / 2, y: innerHeight / 2 }) => {
    const to = Math.max(1, Math.min(12, s * by)), dx = at.x - innerWidth / 2, dy = at.y - innerHeight / 2;
    x = dx - (dx - x) * to / s;
    y = dy - (dy - y) * to / s;
    s = to;
    put();
  };
  const span = () => { const [p, q] = [...fingers.values()]; return { d: Math.hypot(p.x - q.x, p.y - q.y), x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 }; };
  box.addEventListener('wheel', e => { e.preventDefault(); size(e.deltaY < 0 ? 1.2 : 1 / 1.2, e); }, { passive: false });
  box.addEventListener('pointerdown', e => { fingers.set(e.pointerId, e); moved = fingers.size > 1; });
  box.addEventListener('pointermove', e => {
    const was = fingers.get(e.pointerId);
    if (!was) return;
    if (fingers.size === 2) {
      const before = span();
      fingers.set(e.pointerId, e);
      size(span().d / Math.max(1, before.d), span());
    } else {
      x += e.clientX - was.x;
      y += e.clientY - was.y;
      put();
    }
    moved ||= Math.hypot(e.clientX - was.x, e.clientY - was.y) > 3;
    fingers.set(e.pointerId, e);
  });
  for (const end of ['pointerup', 'pointercancel']) box.addEventListener(end, e => fingers.delete(e.pointerId));
  box.addEventListener('click', e => { if (!moved && (e.target === box || s === 1)) box.close(); });
  const steps = { ArrowLeft: [80, 0], ArrowRight: [-80, 0], ArrowUp: [0, 80], ArrowDown: [0, -80] };
  box.addEventListener('keydown', e => {
    e.stopPropagation();
    if (e.key === '+' || e.key === '=') size(1.5);
    else if (e.key === '-') size(1 / 1.5);
    else if (e.key === '0') size(1e-9);
    else if (steps[e.key]) { x += steps[e.key][0]; y += steps[e.key][1]; put(); }
    else return;
    e.preventDefault();
  });
  box.append(twodip.button('Close', () => box.close()));
  box.addEventListener('close', () => { box.remove(); link.focus(); });
  document.body.append(box);
  box.showModal();
  box.focus();
};
document.addEventListener('click', e => {
  const link = e.target.closest && e.target.closest('a.closer-link');
  if (!link || e.ctrlKey || e.metaKey || e.shiftKey) return;
  e.preventDefault();
  twodip.closer(link);
});

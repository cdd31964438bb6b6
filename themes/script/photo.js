// Sampling a photo: it is drawn on this page and measured here; nothing is
// sent anywhere. The mean is taken in linear light, as the tiles' own.
twodip.sampler = (canvas, tell) => {
  const { byId } = twodip, most = 1200, fingers = new Map();
  let picture = null, wide = false, ring = { x: 0, y: 0, r: 20 }, view = { s: 1, x: 0, y: 0 }, lab = null;
  const context = (() => {
    const c = canvas.getContext('2d', { willReadFrequently: true, colorSpace: 'display-p3' });
    wide = !!(c.getContextAttributes && c.getContextAttributes().colorSpace === 'display-p3');
    return c;
  })();

  const draw = () => {
    if (!picture) return;
    const inside = (v, room) => Math.max(room * (1 - view.s), Math.min(0, v));
    view.x = inside(view.x, canvas.width);
    view.y = inside(view.y, canvas.height);
    context.setTransform(view.s, 0, 0, view.s, view.x, view.y);
    context.drawImage(picture, 0, 0, canvas.width, canvas.height);
    context.setTransform(1, 0, 0, 1, 0, 0);
    measure();
    for (const [style, grow] of [['#000', 1], ['#fff', 3]]) {
      context.strokeStyle = style;
      context.lineWidth = 2;
      context.beginPath();
      context.arc(ring.x, ring.y, ring.r + grow, 0, 2 * Math.PI);
      context.stroke();
    }
    if (lab) read();
  };
  // read writes the color beside the ring, where no finger lies on it.
  const read = () => {
    const k = canvas.width / (canvas.clientWidth || canvas.width), w = 150 * k, h = 34 * k, above = ring.y - ring.r - h - 30 * k;
    const x = Math.max(0, Math.min(canvas.width - w, ring.x - w / 2)), y = above > 0 ? above : Math.min(canvas.height - h, ring.y + ring.r + 30 * k);
    context.fillStyle = '#303030';
    context.fillRect(x, y, w, h);
    context.fillStyle = 'lab(' + lab.join(' ') + ')';
    context.fillRect(x, y, h, h);
    context.fillStyle = '#f2f2f2';
    context.font = 15 * k + 'px ' + getComputedStyle(canvas).fontFamily;
    context.textBaseline = 'middle';
    context.fillText(lab.map(v => v.toFixed(0).replace('-', '−')).join(' '), x + h + 8 * k, y + h / 2);
  };

  // measure takes the mean of the linear light inside the ring.
  const measure = () => {
    const { x, y, r } = ring, left = Math.max(0, Math.floor(x - r)), top = Math.max(0, Math.floor(y - r));
    const across = Math.min(canvas.width, Math.ceil(x + r)) - left, down = Math.min(canvas.height, Math.ceil(y + r)) - top;
    if (across < 1 || down < 1) return;
    const { data } = context.getImageData(left, top, across, down, wide ? { colorSpace: 'display-p3' } : undefined);
    const sum = [0, 0, 0];
    let n = 0;
    for (let j = 0; j < down; j++) {
      for (let i = 0; i < across; i++) {
        if ((left + i + 0.5 - x) ** 2 + (top + j + 0.5 - y) ** 2 > r * r) continue;
        const p = 4 * (j * across + i);
        for (let c = 0; c < 3; c++) sum[c] += twodip.color.linear(data[p + c] / 255);
        n++;
      }
    }
    const w = twodip.columns();
    if (n) {
      lab = twodip.color.lab(sum[0] / n, sum[1] / n, sum[2] / n, wide ? w.p3 : w.srgb, w.white);
      tell(lab);
    }
  };

  const move = (x, y) => {
    ring.x = Math.max(0, Math.min(canvas.width - 1, x));
    ring.y = Math.max(0, Math.min(canvas.height - 1, y));
    draw();
  };
  const size = r => {
    ring.r = Math.max(3, Math.min(200, r));
    byId('ring').value = ring.r;
    draw();
  };
  // zoom keeps the point of the photo at x, y where it is.
  const zoom = (s, x = ring.x, y = ring.y) => {
    s = Math.max(1, Math.min(8, s));
    view = { s, x: x - (x - view.x) * s / view.s, y: y - (y - view.y) * s / view.s };
    byId('zoom').value = s;
    draw();
  };
  const spot = e => {
    const box = canvas.getBoundingClientRect(), k = canvas.width / box.width;
    return { x: (e.clientX - box.left) * k, y: (e.clientY - box.top) * k };
  };
  // One finger that starts on the ring moves it; one beside it scrolls the page
  // up and down, or places the ring where it taps; two size the photo.
  canvas.addEventListener('touchstart', e => {
    const p = spot(e.touches[0]);
    if (e.touches.length > 1 || Math.hypot(p.x - ring.x, p.y - ring.y) < ring.r + 24) e.preventDefault();
  }, { passive: false });
  canvas.addEventListener('pointerdown', e => {
    fingers.set(e.pointerId, spot(e));
    canvas.setPointerCapture(e.pointerId);
    if (e.pointerType !== 'touch') move(spot(e).x, spot(e).y);
  });
  canvas.addEventListener('pointermove', e => {
    if (!fingers.has(e.pointerId)) return;
    const span = () => { const [p, q] = [...fingers.values()]; return { d: Math.hypot(p.x - q.x, p.y - q.y), x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 }; };
    if (fingers.size > 1) {
      const was = span();
      fingers.set(e.pointerId, spot(e));
      const now = span();
      view.x += now.x - was.x;
      view.y += now.y - was.y;
      zoom(view.s * now.d / Math.max(1, was.d), now.x, now.y);
      return;
    }
    fingers.set(e.pointerId, spot(e));
    move(spot(e).x, spot(e).y);
  });
  canvas.addEventListener('pointerup', e => {
    if (fingers.size === 1 && fingers.has(e.pointerId)) move(spot(e).x, spot(e).y);
    fingers.delete(e.pointerId);
  });
  canvas.addEventListener('pointercancel', e => fingers.delete(e.pointerId));
  canvas.addEventListener('wheel', e => {
    if (!e.ctrlKey) return; // the page scrolls; with Ctrl the photo is sized
    e.preventDefault();
    zoom(view.s * (e.deltaY < 0 ? 1.2 : 1 / 1.2), spot(e).x, spot(e).y);
  }, { passive: false });
  canvas.addEventListener('keydown', e => {
    const by = e.shiftKey ? 20 : 4;
    const steps = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, -by], ArrowDown: [0, by] };
    if (steps[e.key]) move(ring.x + steps[e.key][0], ring.y + steps[e.key][1]);
    else if (e.key === '+' || e.key === '=') size(ring.r * 1.25);
    else if (e.key === '-') size(ring.r / 1.25);
    else return;
    e.preventDefault();
  });
  byId('ring').addEventListener('input', e => size(Number(e.target.value)));
  byId('zoom').addEventListener('input', e => zoom(Number(e.target.value)));

  // open shows the chosen photo, upright and no larger than it needs to be.
  return async file => {
    picture = await createImageBitmap(file);
    const scale = Math.min(1, most / Math.max(picture.width, picture.height));
    canvas.width = Math.max(1, Math.round(picture.width * scale));
    canvas.height = Math.max(1, Math.round(picture.height * scale));
    ring = { x: canvas.width / 2, y: canvas.height / 2, r: 20 };
    view = { s: 1, x: 0, y: 0 };
    byId('zoom').value = 1;
    size(Math.min(canvas.width, canvas.height) / 12);
  };
};

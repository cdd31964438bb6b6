// Sampling a photo: it is drawn on this page and measured here; nothing is
// sent anywhere. The mean is taken in linear light, as the tiles' own.
twodip.sampler = (canvas, tell) => {
  const most = 1200;
  let picture = null, wide = false, ring = { x: 0, y: 0, r: 20 };
  const context = (() => {
    const wanted = { willReadFrequently: true, colorSpace: 'display-p3' };
    const c = canvas.getContext('2d', wanted);
    wide = !!(c.getContextAttributes && c.getContextAttributes().colorSpace === 'display-p3');
    return c;
  })();

  const draw = () => {
    if (!picture) return;
    context.drawImage(picture, 0, 0, canvas.width, canvas.height);
    measure();
    for (const [style, grow] of [['#000', 1], ['#fff', 3]]) {
      context.strokeStyle = style;
      context.lineWidth = 2;
      context.beginPath();
      context.arc(ring.x, ring.y, ring.r + grow, 0, 2 * Math.PI);
      context.stroke();
    }
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
    if (n) tell(twodip.color.lab(sum[0] / n, sum[1] / n, sum[2] / n, wide ? w.p3 : w.srgb, w.white));
  };

  const move = (x, y) => {
    ring.x = Math.max(0, Math.min(canvas.width - 1, x));
    ring.y = Math.max(0, Math.min(canvas.height - 1, y));
    draw();
  };
  canvas.addEventListener('pointerdown', e => { canvas.setPointerCapture(e.pointerId); point(e); });
  canvas.addEventListener('pointermove', e => { if (e.buttons) point(e); });
  const point = e => {
    const box = canvas.getBoundingClientRect();
    move((e.clientX - box.left) * canvas.width / box.width, (e.clientY - box.top) * canvas.height / box.height);
  };
  canvas.addEventListener('keydown', e => {
    const by = e.shiftKey ? 20 : 4;
    const steps = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, -by], ArrowDown: [0, by] };
    if (steps[e.key]) move(ring.x + steps[e.key][0], ring.y + steps[e.key][1]);
    else if (e.key === '+' || e.key === '=') { ring.r = Math.min(200, ring.r * 1.25); draw(); }
    else if (e.key === '-') { ring.r = Math.max(3, ring.r / 1.25); draw(); }
    else return;
    e.preventDefault();
  });

  // open shows the chosen photo, upright and no larger than it needs to be.
  return async file => {
    picture = await createImageBitmap(file);
    const scale = Math.min(1, most / Math.max(picture.width, picture.height));
    canvas.width = Math.max(1, Math.round(picture.width * scale));
    canvas.height = Math.max(1, Math.round(picture.height * scale));
    ring = { x: canvas.width / 2, y: canvas.height / 2, r: Math.max(3, Math.min(canvas.width, canvas.height) / 12) };
    draw();
  };
};

#!/usr/bin/env bash
# Photo → color + 1280 px picture + 320 px picture: twodip beside libvips and
# ImageMagick doing the same work on the same photos, one worker each, in one
# run. Trust the ratios: machines differ and are shared.
#
#   bash testdata/bench/photos.sh [PHOTO…]      (default: ../shared/photos/ceramic/phone-cups)
#
# Needs Debian's libvips-tools, imagemagick and time.
set -euo pipefail
cd "$(dirname "$0")/../.."
for tool in vips vipsthumbnail convert /usr/bin/time; do
  command -v "$tool" >/dev/null || { echo "photos.sh: $tool is missing: apt-get install libvips-tools imagemagick time"; exit 1; }
done
photos=("$@")
[ ${#photos[@]} -gt 0 ] || photos=(../shared/photos/ceramic/phone-cups/{cup-white-tea,cups-on-metal-tray,jug-white-transfer-print,mugs-cream-painted}.jpg)

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
CGO_ENABLED=0 go build -tags nodynamic -o "$work/twodip" ./cmd/twodip

# A wall with each photo twice, so that start-up counts as little as in real use.
wall=$work/wall
mkdir -p "$wall/content" "$wall/tiles/photos"
printf 'name: Bench\n' >"$wall/wall.yaml"
printf 'code,name\nA,Alder Ash\n' >"$wall/content/glazes.csv"
printf 'tile,first,second,status\n' >"$wall/tiles/plan.csv"
n=0
for p in "${photos[@]}" "${photos[@]}"; do
  n=$((n + 1))
  cp "$p" "$wall/tiles/photos/$n.jpg"
  printf '%s,A,,planned\n' "$n" >>"$wall/tiles/plan.csv"
done

ours() { GOMAXPROCS=1 "$work/twodip" measure --wall "$wall" >/dev/null 2>&1 || true; }

# The mean of linear light over the middle of the picture, and both pictures.
with_vips() {
  for p in "$wall"/tiles/photos/*.jpg; do
    read -r w h < <(vipsheader -f width "$p" | tr '\n' ' '; vipsheader -f height "$p")
    vips crop "$p" "$work/middle.v" $((w / 4)) $((h / 4)) $((w / 2)) $((h / 2))
    vips colourspace "$work/middle.v" "$work/linear.v" scrgb
    vips stats "$work/linear.v" "$work/stats.v"
    vipsthumbnail "$p" --size 1280 -o "$work/large.jpg[Q=82,strip]"
    vipsthumbnail "$work/large.jpg" --size 320 -o "$work/small.jpg[Q=82,strip]"
  done
}

with_magick() {
  for p in "$wall"/tiles/photos/*.jpg; do
    convert "$p" -auto-orient -strip \
      \( +clone -gravity center -crop 50%x50%+0+0 +repage -colorspace RGB -resize 1x1! -write "txt:$work/mean.txt" +delete \) \
      \( +clone -resize 1280x1280 -quality 82 -write "$work/large.jpg" -resize 320x320 -write "$work/small.jpg" +delete \) null:
  done
}

# cpu prints CPU milliseconds a photo and the peak megabytes of a command.
cpu() {
  export -f "$1"; export work wall
  VIPS_CONCURRENCY=1 MAGICK_THREAD_LIMIT=1 /usr/bin/time -f '%U %S %M' -o "$work/time" bash -c "$1"
  awk -v n="$n" '{printf "%.0f %.0f\n", 1000 * ($1 + $2) / n, $3 / 1024}' "$work/time"
}

printf '%-12s %18s %9s %12s\n' '' 'CPU ms a photo' 'peak MB' 'of libvips'
base=
for who in with_vips ours with_magick; do
  read -r ms mb < <(cpu "$who")
  [ "$who" = with_vips ] && base=$ms
  name=${who#with_}; [ "$who" = ours ] && name=twodip
  printf '%-12s %18s %9s %12s\n' "$name" "$ms" "$mb" "$(awk -v a="$ms" -v b="$base" 'BEGIN { printf "%.2f", a / b }')"
done

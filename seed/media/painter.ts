import { addBall, addBat, addTee } from "./props";
import { ballOf, type BallFlight } from "./ball";
import { paintBackdrop } from "./backdrop";
import { cameraOf, type Camera } from "./camera";
import { addBody } from "./figure-body";
import { addHead } from "./figure-head";
import { paintFrameNumber } from "./frame-number";
import { lightOf, toByte, toLinear, type Light } from "./light";
import { wardrobeOf } from "./look";
import { Mesh } from "./mesh";
import { Raster, type Box } from "./raster";
import { ShadowMap } from "./shadow";
import { hitterOf, type Hitter, type Pose } from "./skeleton";
import type { SwingSpec } from "./spec";
import type { Vec3 } from "./vec";

/** Draws the frames of one spec, one at a time, each as a fresh RGB picture. */
export class Painter {
  private readonly camera: Camera;
  private readonly hitter: Hitter;
  private readonly ball: BallFlight;
  private readonly light: Light;
  private readonly backdrop: Uint8Array;
  private readonly mesh = new Mesh();
  private readonly raster: Raster;
  private readonly shadow: ShadowMap;
  private readonly albedo: readonly Vec3[];
  private readonly shine: readonly number[];

  /** @param backdrop the place without the hitter, when it was drawn before */
  constructor(
    private readonly spec: SwingSpec,
    backdrop?: Uint8Array,
  ) {
    this.camera = cameraOf(spec);
    this.hitter = hitterOf(spec);
    this.ball = ballOf(spec, this.hitter);
    const { materials, scene } = wardrobeOf(spec);
    this.light = lightOf(spec.view, scene);
    this.albedo = materials.map(({ colour }): Vec3 => [toLinear(colour[0]), toLinear(colour[1]), toLinear(colour[2])]);
    this.shine = materials.map(({ shine }) => shine);
    this.backdrop = backdrop ?? paintBackdrop(spec, this.camera, this.ball.contact[2]);
    this.raster = new Raster(this.camera);
    const h = this.hitter.size.heightM;
    this.shadow = new ShadowMap(this.light.toward, [0.05 * h, 0.55 * h, 0.15 * h], 0.95 * h);
  }

  /** The picture at a time in seconds from contact, marked with its frame number. Three bytes a pixel, row by row. */
  paint(frameIndex: number, timeSeconds: number): Uint8Array {
    const { mesh, camera } = this;
    const pose = this.hitter.poseAt(timeSeconds);
    mesh.reset();
    addBody(mesh, this.hitter, pose);
    addHead(mesh, this.hitter, pose);
    addBat(mesh, this.hitter, pose);
    if (this.spec.task === "tee") addTee(mesh, this.ball.contact);
    mesh.computeNormals();
    const ball = this.ball.at(timeSeconds);
    this.shadow.draw(mesh);
    if (ball && ball[1] > 0 && Math.abs(ball[0]) < 6) {
      addBall(mesh, ball);
      mesh.computeNormals();
    }
    const picture = Uint8Array.from(this.backdrop);
    const box = this.raster.draw(mesh);
    this.shadeGround(picture, pose);
    this.shadeFigure(picture, box);
    paintFrameNumber(picture, camera.widthPx, camera.heightPx, frameIndex);
    return picture;
  }

  /** Shadow on the ground: the hitter's own, and the dark close under the shoes. */
  private shadeGround(picture: Uint8Array, pose: Pose): void {
    const { camera, light, shadow } = this;
    const h = this.hitter.size.heightM;
    const { position: o, into: f, right: r } = camera;
    const [kx, kz] = [light.toward[0] / light.toward[1], light.toward[2] / light.toward[1]];
    const corners: Vec3[] = [];
    for (const x of [-0.62, 0.62]) for (const z of [-0.3, 0.62]) for (const y of [0, 1.15]) corners.push([x * h - y * h * kx, 0, z * h - y * h * kz]);
    let [left, top, right, bottom] = [camera.widthPx, camera.heightPx, 0, 0];
    for (const c of corners) {
      const depth = Math.max(0.3, (c[0] - o[0]) * f[0] + (c[2] - o[2]) * f[2]);
      const k = camera.focalPx / depth;
      const x = camera.centreX + camera.mirror * k * ((c[0] - o[0]) * r[0] + (c[2] - o[2]) * r[2]);
      const y = camera.centreY + k * o[1];
      [left, top, right, bottom] = [Math.min(left, x), Math.min(top, y), Math.max(right, x), Math.max(bottom, y)];
    }
    const [x0, x1] = [Math.max(0, Math.floor(left)), Math.min(camera.widthPx - 1, Math.ceil(right))];
    const [y0, y1] = [Math.max(Math.ceil(camera.centreY) + 4, Math.floor(top)), Math.min(camera.heightPx - 1, Math.ceil(bottom))];
    const feet = [pose.frontFoot, pose.backFoot].map((foot) => ({ x: (foot.heel[0] + foot.toe[0]) / 2, z: (foot.heel[2] + foot.toe[2]) / 2, y: Math.min(foot.heel[1], foot.toe[1]), foot }));
    for (let y = y0; y <= y1; y++) {
      const depth = (camera.focalPx * o[1]) / (y + 0.5 - camera.centreY);
      for (let x = x0; x <= x1; x++) {
        const sideways = (camera.mirror * (x + 0.5 - camera.centreX) * depth) / camera.focalPx;
        const gx = o[0] + f[0] * depth + r[0] * sideways;
        const gz = o[2] + f[2] * depth + r[2] * sideways;
        let keep = 1 - 0.5 * (1 - shadow.lit(gx, 0.005, gz, 0.035, 0.006));
        for (const { foot } of feet) {
          const ex = foot.toe[0] - foot.heel[0];
          const ez = foot.toe[2] - foot.heel[2];
          const k = Math.max(0, Math.min(1, ((gx - foot.heel[0]) * ex + (gz - foot.heel[2]) * ez) / (ex * ex + ez * ez)));
          const d2 = (gx - foot.heel[0] - k * ex) ** 2 + (gz - foot.heel[2] - k * ez) ** 2;
          const height = Math.max(0, foot.heel[1] + k * (foot.toe[1] - foot.heel[1]));
          const size = 0.006 + 0.05 * height;
          if (d2 < 9 * size) keep *= 1 - (0.5 * Math.exp(-d2 / size)) / (1 + 14 * height);
        }
        if (keep > 0.996) continue;
        const at = 3 * (y * camera.widthPx + x);
        for (let c = 0; c < 3; c++) picture[at + c] = toByte(toLinear(picture[at + c] as number) * keep);
      }
    }
  }

  private shadeFigure(picture: Uint8Array, box: Box): void {
    const { raster, mesh, camera } = this;
    const { shown, wide } = raster;
    const colour = new Float32Array(3);
    for (let y = box.top; y <= box.bottom; y++) {
      for (let x = box.left; x <= box.right; x++) {
        const at = 2 * y * wide + 2 * x;
        const ids = [shown[at] as number, shown[at + 1] as number, shown[at + wide] as number, shown[at + wide + 1] as number];
        if (ids[0] === 0 && ids[1] === 0 && ids[2] === 0 && ids[3] === 0) continue;
        const out = 3 * (y * camera.widthPx + x);
        let [red, green, blue] = [0, 0, 0];
        let done = 0;
        for (let i = 0; i < 4; i++) {
          if (done & (1 << i)) continue;
          const id = ids[i] as number;
          let count = 0;
          const key = id === 0 ? -1 : ((mesh.part[id - 1] as number) << 8) | (mesh.material[id - 1] as number);
          let [cx, cy] = [0, 0];
          for (let j = i; j < 4; j++) {
            const other = ids[j] as number;
            const otherKey = other === 0 ? -1 : ((mesh.part[other - 1] as number) << 8) | (mesh.material[other - 1] as number);
            if (otherKey !== key) continue;
            done |= 1 << j;
            count++;
            cx += (j & 1) + 0.5;
            cy += (j >> 1) + 0.5;
          }
          if (id === 0) {
            red += count * toLinear(picture[out] as number);
            green += count * toLinear(picture[out + 1] as number);
            blue += count * toLinear(picture[out + 2] as number);
          } else {
            this.shade(id - 1, 2 * x + cx / count, 2 * y + cy / count, colour);
            red += count * (colour[0] as number);
            green += count * (colour[1] as number);
            blue += count * (colour[2] as number);
          }
        }
        picture[out] = toByte(red / 4);
        picture[out + 1] = toByte(green / 4);
        picture[out + 2] = toByte(blue / 4);
      }
    }
  }

  /** Light that leaves a triangle at a place of the picture (in quarter pixels) toward the camera. */
  private shade(triangle: number, qx: number, qy: number, out: Float32Array): void {
    const { mesh, raster, light, camera } = this;
    const { sx, sy } = raster;
    const a = mesh.corner[3 * triangle] as number;
    const b = mesh.corner[3 * triangle + 1] as number;
    const c = mesh.corner[3 * triangle + 2] as number;
    const [ax, ay, bx, by, cx, cy] = [sx[a] as number, sy[a] as number, sx[b] as number, sy[b] as number, sx[c] as number, sy[c] as number];
    const area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    const wa = Math.max(0, Math.min(1, ((bx - qx) * (cy - qy) - (by - qy) * (cx - qx)) / area));
    const wb = Math.max(0, Math.min(1 - wa, ((cx - qx) * (ay - qy) - (cy - qy) * (ax - qx)) / area));
    const wc = 1 - wa - wb;
    const n = mesh.normal;
    const p = mesh.position;
    let nx = wa * (n[3 * a] as number) + wb * (n[3 * b] as number) + wc * (n[3 * c] as number);
    let ny = wa * (n[3 * a + 1] as number) + wb * (n[3 * b + 1] as number) + wc * (n[3 * c + 1] as number);
    let nz = wa * (n[3 * a + 2] as number) + wb * (n[3 * b + 2] as number) + wc * (n[3 * c + 2] as number);
    const size = Math.sqrt(nx * nx + ny * ny + nz * nz) || 1;
    nx /= size;
    ny /= size;
    nz /= size;
    const x = wa * (p[3 * a] as number) + wb * (p[3 * b] as number) + wc * (p[3 * c] as number);
    const y = wa * (p[3 * a + 1] as number) + wb * (p[3 * b + 1] as number) + wc * (p[3 * c + 1] as number);
    const z = wa * (p[3 * a + 2] as number) + wb * (p[3 * b + 2] as number) + wc * (p[3 * c + 2] as number);
    const l = light.toward;
    const facingLight = nx * l[0] + ny * l[1] + nz * l[2];
    const wrapped = Math.max(0, (facingLight + 0.18) / 1.18);
    const reaches = wrapped > 0 ? this.shadow.lit(x + nx * 0.012, y + ny * 0.012, z + nz * 0.012, 0.016, 0.012, 6) : 0;
    const key = wrapped * (0.12 + 0.88 * reaches);
    const skyShare = 0.5 + 0.5 * ny;
    const toEyeX = camera.position[0] - x;
    const toEyeY = camera.position[1] - y;
    const toEyeZ = camera.position[2] - z;
    const eye = Math.sqrt(toEyeX * toEyeX + toEyeY * toEyeY + toEyeZ * toEyeZ);
    const facingEye = Math.max(0, (nx * toEyeX + ny * toEyeY + nz * toEyeZ) / eye);
    const rim = (1 - facingEye) ** 3 * 0.1;
    const low = Math.min(1, 0.72 + y * 0.6);
    const material = mesh.material[triangle] as number;
    const albedo = this.albedo[material] as Vec3;
    const shine = this.shine[material] as number;
    let gloss = 0;
    if (shine > 0) {
      const hx = l[0] + toEyeX / eye;
      const hy = l[1] + toEyeY / eye;
      const hz = l[2] + toEyeZ / eye;
      const half = Math.max(0, (nx * hx + ny * hy + nz * hz) / Math.sqrt(hx * hx + hy * hy + hz * hz));
      gloss = shine * (half ** 40 * 0.5 + half ** 8 * 0.08) * (0.25 + 0.75 * reaches);
    }
    for (let i = 0; i < 3; i++) {
      const ambient = ((light.sky[i] as number) * skyShare + (light.ground[i] as number) * (1 - skyShare)) * low;
      out[i] = (albedo[i] as number) * ((light.key[i] as number) * key * 1.12 + ambient) + gloss + rim * (light.sky[i] as number) * 0.5;
    }
  }
}

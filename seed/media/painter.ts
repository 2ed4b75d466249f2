import { paintBackdrop } from "./backdrop";
import { ballOf, type BallFlight } from "./ball";
import { cameraOf, type Camera } from "./camera";
import { addBody } from "./figure-body";
import { addHead } from "./figure-head";
import { paintFrameNumber } from "./frame-number";
import { lightOf, type Light } from "./light";
import { wardrobeOf } from "./look";
import { Mesh } from "./mesh";
import { FigurePainter } from "./paint-figure";
import { paintGroundShadow } from "./paint-ground";
import { addBall, addBat, addTee } from "./props";
import { Raster } from "./raster";
import { ShadowMap } from "./shadow";
import { hitterOf, type Hitter } from "./skeleton";
import type { SwingSpec } from "./spec";

/** Draws the frames of one spec, one at a time, each as a fresh RGB picture. */
export class Painter {
  private readonly camera: Camera;
  private readonly hitter: Hitter;
  private readonly ball: BallFlight;
  private readonly light: Light;
  private readonly backdrop: Uint8Array;
  private readonly mesh: Mesh;
  private readonly raster: Raster;
  private readonly shadow: ShadowMap;
  private readonly figure: FigurePainter;

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
    this.backdrop = backdrop ?? paintBackdrop(spec, this.camera, this.ball.contact[2]);
    this.mesh = new Mesh(spec.heightPx <= 400 ? 0.62 : 1);
    this.raster = new Raster(this.camera);
    const h = this.hitter.size.heightM;
    this.shadow = new ShadowMap(this.light.toward, [0.05 * h, 0.55 * h, 0.15 * h], 0.95 * h);
    this.figure = new FigurePainter(this.camera, this.light, materials, this.mesh, this.raster, this.shadow);
  }

  /** The picture at a time in seconds from contact, marked with its frame number. Three bytes a pixel, row by row. */
  paint(frameIndex: number, timeSeconds: number): Uint8Array {
    const { mesh, camera, hitter } = this;
    const pose = hitter.poseAt(timeSeconds);
    mesh.reset();
    addBody(mesh, hitter, pose);
    addHead(mesh, hitter, pose);
    addBat(mesh, hitter, pose);
    if (this.spec.task === "tee") addTee(mesh, this.ball.contact);
    const ball = this.ball.at(timeSeconds);
    if (ball && ball[1] > 0 && Math.abs(ball[0]) < 6) addBall(mesh, ball);
    mesh.computeNormals();
    this.shadow.draw(mesh);
    const picture = new Uint8Array(this.backdrop.length);
    picture.set(this.backdrop);
    paintGroundShadow(picture, camera, this.light, this.shadow, pose, hitter.size.heightM);
    this.figure.paint(picture, this.raster.draw(mesh));
    paintFrameNumber(picture, camera.widthPx, camera.heightPx, frameIndex);
    return picture;
  }
}

export { showArrivingPoster as GET } from "@/lib/domains/clips/arriving/routes";

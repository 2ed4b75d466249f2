export { playVoice as GET, sendVoice as PUT } from "@/lib/domains/walkthroughs/routes";

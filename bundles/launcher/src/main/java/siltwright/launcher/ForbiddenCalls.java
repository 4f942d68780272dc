package siltwright.launcher;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Set;
import java.util.function.LongPredicate;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Handle;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;
import org.osgi.framework.hooks.weaving.WeavingHook;
import org.osgi.framework.hooks.weaving.WovenClass;

/**
 * Takes out of add-ons, as their classes are loaded, the calls that would end the program or hold
 * its end up. Such a call fails instead. Calls by reflection and native code are beyond it.
 */
final class ForbiddenCalls implements WeavingHook {
  private static final Map<String, Set<String>> FORBIDDEN =
      Map.of(
          "java/lang/System", Set.of("exit", "setOut", "setErr", "setIn", "setSecurityManager"),
          "java/lang/Runtime", Set.of("exit", "halt", "addShutdownHook"));

  private final LongPredicate concerned;

  /**
   * Makes the hook.
   *
   * @param concerned whether the bundle with an id is an add-on
   */
  ForbiddenCalls(LongPredicate concerned) {
    this.concerned = concerned;
  }

  @Override
  public void weave(WovenClass woven) {
    if (concerned.test(woven.getBundleWiring().getBundle().getBundleId())
        && mentions(woven.getBytes())) {
      woven.setBytes(Without.calls(woven.getBytes()));
    }
  }

  /** Whether it is worth to look closer; most classes name neither type with such a method. */
  private static boolean mentions(byte[] bytes) {
    String text = new String(bytes, StandardCharsets.ISO_8859_1);
    for (Map.Entry<String, Set<String>> type : FORBIDDEN.entrySet()) {
      if (text.contains(type.getKey()) && type.getValue().stream().anyMatch(text::contains)) {
        return true;
      }
    }
    return false;
  }

  /** Apart, so that the library is loaded only for a class that needs it. */
  private static final class Without extends ClassVisitor {

    private Without(ClassVisitor next) {
      super(Opcodes.ASM9, next);
    }

    static byte[] calls(byte[] bytes) {
      ClassReader in = new ClassReader(bytes);
      ClassWriter out = new ClassWriter(in, ClassWriter.COMPUTE_MAXS);
      in.accept(new Without(out), 0);
      return out.toByteArray();
    }

    @Override
    public MethodVisitor visitMethod(
        int access, String name, String descriptor, String signature, String[] exceptions) {
      MethodVisitor next = super.visitMethod(access, name, descriptor, signature, exceptions);
      return new MethodVisitor(Opcodes.ASM9, next) {
        @Override
        public void visitMethodInsn(
            int opcode, String owner, String method, String type, boolean ofInterface) {
          if (FORBIDDEN.getOrDefault(owner, Set.of()).contains(method)) {
            fail(named(owner, method));
          }
          // never reached then, but the verifier wants to see the stack that follows
          super.visitMethodInsn(opcode, owner, method, type, ofInterface);
        }

        /** Method references, such as {@code System::exit}. */
        @Override
        public void visitInvokeDynamicInsn(
            String method, String type, Handle bootstrap, Object... arguments) {
          for (Object argument : arguments) {
            if (argument instanceof Handle to
                && FORBIDDEN.getOrDefault(to.getOwner(), Set.of()).contains(to.getName())) {
              fail(named(to.getOwner(), to.getName()));
            }
          }
          super.visitInvokeDynamicInsn(method, type, bootstrap, arguments);
        }

        private String named(String owner, String method) {
          return owner.substring(owner.lastIndexOf('/') + 1) + "." + method;
        }

        /** A call of the JDK that always throws, so that the frames stay as they are. */
        private void fail(String call) {
          super.visitInsn(Opcodes.ACONST_NULL);
          super.visitLdcInsn("an add-on may not call " + call);
          super.visitMethodInsn(
              Opcodes.INVOKESTATIC,
              "java/util/Objects",
              "requireNonNull",
              Type.getMethodDescriptor(
                  Type.getType(Object.class),
                  Type.getType(Object.class),
                  Type.getType(String.class)),
              false);
          super.visitInsn(Opcodes.POP);
        }
      };
    }
  }
}

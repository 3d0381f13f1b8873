//! Building nodes by plain calls. The `html!` macro unrolls every node into code of its own; these few functions are
//! compiled once, and the page is a third smaller for it.

use std::rc::Rc;
use yew::html::{onchange, onclick, oninput, onsubmit};
use yew::prelude::*;
use yew::virtual_dom::{AttrValue, Listener, VTag};

/// An element being built.
pub(crate) struct Node(Box<VTag>);

/// An element with a class; an empty class is left out.
#[inline(never)]
pub(crate) fn el(tag: &'static str, class: &'static str) -> Node {
    let mut node = Box::new(VTag::new(tag));
    if !class.is_empty() {
        node.add_attribute("class", class);
    }
    Node(node)
}

/// An element that holds text.
#[inline(never)]
pub(crate) fn text(tag: &'static str, class: &'static str, says: &str) -> Node {
    el(tag, class).say(says)
}

/// A button that sends a message. `type` is always `button`: only a form's own key submits.
#[inline(never)]
pub(crate) fn button<M: Clone + 'static>(class: &'static str, on: &Callback<M>, msg: M) -> Node {
    el("button", class).set("type", "button").tap(on, msg)
}

/// A field under its label, and beneath it why what was typed cannot be used. Each part has a name: a fault that comes or goes must
/// not have the field made anew, and the focus gone, in the middle of a word.
pub(crate) fn field(label: &str, input: Node, fault: Option<&String>) -> Node {
    let input = input.flag("aria-invalid", fault.is_some()).named("input");
    let fault = fault.map(|f| text("span", "fault", f).named("fault").set("role", "alert").into());
    el("label", "field").put(text("span", "", label).named("label")).put(input).maybe(fault)
}

/// A button with a label.
#[inline(never)]
pub(crate) fn key<M: Clone + 'static>(class: &'static str, label: &str, on: &Callback<M>, msg: M) -> Node {
    button(class, on, msg).say(label)
}

/// A button that is on or off.
#[inline(never)]
pub(crate) fn toggle<M: Clone + 'static>(
    class: &'static str,
    label: &str,
    set: bool,
    on: &Callback<M>,
    msg: M,
) -> Node {
    key(class, label, on, msg).flag("aria-pressed", set)
}

impl Node {
    /// Names the node among its siblings. Where each has a name, one that comes or goes leaves the others in place,
    /// and the focus with them.
    #[inline(never)]
    pub(crate) fn named(mut self, name: &str) -> Node {
        self.0.key = Some(name.into());
        self
    }

    /// Adds a child.
    #[inline(never)]
    pub(crate) fn put(mut self, child: impl Into<Html>) -> Node {
        self.0.add_child(child.into());
        self
    }

    /// Adds a child that may be missing.
    #[inline(never)]
    pub(crate) fn maybe(self, child: Option<Html>) -> Node {
        match child {
            Some(child) => self.put(child),
            None => self,
        }
    }

    /// Adds children.
    pub(crate) fn all(mut self, children: impl IntoIterator<Item = Node>) -> Node {
        for child in children {
            self.0.add_child(child.into());
        }
        self
    }

    /// Adds text.
    #[inline(never)]
    pub(crate) fn say(self, says: &str) -> Node {
        self.put(Html::from(says.to_string()))
    }

    /// Sets an attribute.
    #[inline(never)]
    pub(crate) fn set(mut self, name: &'static str, value: &str) -> Node {
        self.0.add_attribute(name, AttrValue::from(value.to_string()));
        self
    }

    /// Sets an attribute to `true` or `false`.
    #[inline(never)]
    pub(crate) fn flag(self, name: &'static str, value: bool) -> Node {
        self.set(name, if value { "true" } else { "false" })
    }

    /// Sets an attribute to a whole number.
    #[inline(never)]
    pub(crate) fn number(self, name: &'static str, value: i32) -> Node {
        self.set(name, &value.to_string())
    }

    /// Sends a message when clicked.
    #[inline(never)]
    pub(crate) fn tap<M: Clone + 'static>(mut self, on: &Callback<M>, msg: M) -> Node {
        let on = on.clone();
        self.listen(Rc::new(onclick::Wrapper::new(Callback::from(move |_: MouseEvent| {
            on.emit(msg.clone())
        }))));
        self
    }

    /// What stands in an input element.
    pub(crate) fn value(mut self, text: &str) -> Node {
        self.0.set_value(Some(AttrValue::from(text.to_string())));
        self
    }

    /// Calls back on input.
    pub(crate) fn typed(mut self, then: Callback<InputEvent>) -> Node {
        self.listen(Rc::new(oninput::Wrapper::new(then)));
        self
    }

    /// Calls back when another choice or file is taken.
    pub(crate) fn changed(mut self, then: Callback<Event>) -> Node {
        self.listen(Rc::new(onchange::Wrapper::new(then)));
        self
    }

    /// Calls back with the place of a click.
    pub(crate) fn clicked(mut self, then: Callback<MouseEvent>) -> Node {
        self.listen(Rc::new(onclick::Wrapper::new(then)));
        self
    }

    /// Calls back on submit.
    pub(crate) fn submitted(mut self, then: Callback<SubmitEvent>) -> Node {
        self.listen(Rc::new(onsubmit::Wrapper::new(then)));
        self
    }

    fn listen(&mut self, listener: Rc<dyn Listener>) {
        self.0.add_listener(listener);
    }
}

impl From<Node> for Html {
    fn from(node: Node) -> Html {
        (*node.0).into()
    }
}

/// Several nodes without an element round them.
#[inline(never)]
pub(crate) fn several(nodes: Vec<Html>) -> Html {
    Html::from_iter(nodes)
}
